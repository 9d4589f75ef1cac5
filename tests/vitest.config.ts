import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vitest/config'
import { KIND_VARIABLE } from './support/fresh-database.ts'
import { findBinaries } from './support/postgres-server.ts'

/** Store and server do the same on either database; what is of SQLite's file alone says so in its name. */
const ON_BOTH = 'tests/{store,http,background,people,faults}/**/*.test.ts'
const OF_SQLITE = 'tests/**/*.sqlite.test.ts'
const SLOW = 'tests/{browser,start}/**/*.test.ts'

/** Files that share a worker load the code once; none of them leaves anything behind in it. */
const SHARED_WORKERS = { isolate: false } as const

/** One more than two cores: many wait for processes that stop, streams that break and turns. */
const NODE_WORKERS = { ...SHARED_WORKERS, maxWorkers: 3, sequence: { groupOrder: 0 } } as const

/** A file with one page drawn at a time leaves a good part of the second core idle. */
const BROWSER_WORKERS = { ...SHARED_WORKERS, maxWorkers: 2, sequence: { groupOrder: 1 } } as const

export default defineConfig({
  test: {
    root: fileURLToPath(new URL('..', import.meta.url)),
    globalSetup: 'tests/support/postgres-server.ts',
    // Real processes, signals and browsers on a busy machine may be late once; what fails twice has failed.
    retry: process.env.CI ? 1 : 0,
    projects: [
      {
        extends: true,
        test: {
          name: 'node',
          include: ['tests/**/*.test.ts', 'tests/**/*.test.tsx'],
          exclude: [SLOW],
          testTimeout: 60_000,
          hookTimeout: 60_000,
          ...NODE_WORKERS,
        },
      },
      ...(findBinaries() === null
        ? []
        : [
            {
              extends: true as const,
              test: {
                name: 'on PostgreSQL',
                include: [ON_BOTH],
                exclude: [OF_SQLITE],
                env: { [KIND_VARIABLE]: 'PostgreSQL' },
                testTimeout: 60_000,
                hookTimeout: 60_000,
                ...NODE_WORKERS,
              },
            },
          ]),
      {
        extends: true,
        test: {
          name: 'browser',
          include: [SLOW],
          testTimeout: 120_000,
          hookTimeout: 180_000,
          ...BROWSER_WORKERS,
        },
      },
    ],
  },
})
