import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vitest/config'

const SLOW = 'tests/{browser,start}/**/*.test.ts'

export default defineConfig({
  test: {
    root: fileURLToPath(new URL('..', import.meta.url)),
    projects: [
      {
        extends: true,
        test: {
          name: 'node',
          include: ['tests/**/*.test.ts', 'tests/**/*.test.tsx'],
          exclude: [SLOW],
          testTimeout: 60_000,
          hookTimeout: 60_000,
          maxWorkers: 2,
          sequence: { groupOrder: 0 },
        },
      },
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
