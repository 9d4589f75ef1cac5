import { existsSync } from 'node:fs'
import { join } from 'node:path'
import { PROJECT_FOLDER } from './project.mjs'

/** Name of the file in dist/server, and the source it starts from. */
const ENTRIES = {
  main: 'server/main.ts',
  cli: 'server/cli/main.ts',
  'long-worker': 'server/background/long-worker.ts',
  'solve-worker': 'server/background/solve-worker.ts',
  'job-worker': 'server/background/job-worker.ts',
}

/** Loaded from node_modules: they hold native libraries or start worker files of their own. */
const LEFT_OUTSIDE = ['better-sqlite3', 'piscina', 'sharp']

/** Packages written as CommonJS call `require`, which an ES module does not have by itself. */
const REQUIRE =
  "import { createRequire as requireFrom } from 'node:module'; const require = requireFrom(import.meta.url);"

/**
 * Bundles the server, the command line and the worker. What they share goes into chunks, and
 * a dynamic import stays one, so that a command loads only what it uses.
 * @param {string} folder where to write
 */
export async function bundleServer(folder) {
  const missing = Object.values(ENTRIES).filter((file) => !existsSync(join(PROJECT_FOLDER, file)))
  if (missing.length > 0) throw new Error(`Cannot build the server: missing ${missing.join(', ')}.`)
  const { build } = await import('esbuild')
  await build({
    absWorkingDir: PROJECT_FOLDER,
    entryPoints: ENTRIES,
    outdir: folder,
    bundle: true,
    splitting: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    external: LEFT_OUTSIDE,
    banner: { js: REQUIRE },
    sourcemap: true,
    logLevel: 'warning',
  })
}
