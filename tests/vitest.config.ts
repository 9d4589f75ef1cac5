import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vitest/config'
import { KIND_VARIABLE } from './support/fresh-database.ts'
import { findBinaries } from './support/postgres-server.ts'

/** Store and server do the same on either database; what is of SQLite's file alone says so in its name. */
const ON_BOTH = 'tests/{store,http,background,people,faults}/**/*.test.ts'
const OF_SQLITE = 'tests/**/*.sqlite.test.ts'
const SLOW = 'tests/{browser,start}/**/*.test.ts'

/** Files that share a worker load the code once; none of them leaves anything behind in it. */
const SHARED_WORKERS = { maxWorkers: 2, isolate: false } as const

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
          ...SHARED_WORKERS,
          sequence: { groupOrder: 0 },
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
                ...SHARED_WORKERS,
                sequence: { groupOrder: 0 },
              },
            },
          ]),
      {
        extends: true,
        test: {
          // One file at a time: a browser drawing maps without a graphics card takes the whole machine.
          name: 'browser',
          include: [SLOW],
          testTimeout: 120_000,
          hookTimeout: 180_000,
          fileParallelism: false,
          maxWorkers: 1,
          sequence: { groupOrder: 1 },
        },
      },
    ],
  },
})
