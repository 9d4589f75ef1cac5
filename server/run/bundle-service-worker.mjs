import { createHash } from 'node:crypto'
import { readdirSync, readFileSync } from 'node:fs'
import { join, relative, sep } from 'node:path'
import { PROJECT_FOLDER } from './project.mjs'

const WORKER = 'service-worker.js'
/** The bundler puts a fingerprint into names under here, so that the name already tells the content. */
const FINGERPRINTED = 'assets/'
/** Maps of the sources are for developers, and no page asks for them. */
const SOURCE_MAP = '.map'

/**
 * Bundles the worker that keeps the pages on the device, with the list of all files of the build
 * in it. It is one file without imports, so that every browser takes it.
 * @param {string} folder of the finished build
 */
export async function bundleServiceWorker(folder) {
  const { build } = await import('vite')
  await build({
    configFile: false,
    root: join(PROJECT_FOLDER, 'web'),
    publicDir: false,
    logLevel: 'warn',
    define: {
      BUILT_FILES: JSON.stringify(builtFiles(folder)),
      'process.env.NODE_ENV': '"production"',
    },
    build: {
      target: 'es2022',
      outDir: folder,
      emptyOutDir: false,
      rolldownOptions: {
        input: join(PROJECT_FOLDER, 'web/device/service-worker.ts'),
        output: { format: 'iife', entryFileNames: WORKER },
        checks: { bundlerTimings: false },
      },
    },
  })
}

/**
 * @param {string} folder
 * @returns {{ url: string, revision: string | null }[]} in the order of their names
 */
function builtFiles(folder) {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map(({ parentPath, name }) => join(parentPath, name))
    .filter((file) => !file.endsWith(SOURCE_MAP))
    .sort()
    .map((file) => {
      const path = relative(folder, file).split(sep).join('/')
      const revision = path.startsWith(FINGERPRINTED) ? null : hashOf(file)
      return { url: `/${path}`, revision }
    })
}

/** @param {string} file */
function hashOf(file) {
  return createHash('sha256').update(readFileSync(file)).digest('hex').slice(0, 16)
}
