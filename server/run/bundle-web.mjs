import { join } from 'node:path'
import { bundleServiceWorker } from './bundle-service-worker.mjs'
import { PROJECT_FOLDER } from './project.mjs'

/**
 * Bundles the pages as web/vite.config.ts says, and the worker that keeps them on the device.
 * @param {string} folder where to write
 */
export async function bundleWeb(folder) {
  const { build } = await import('vite')
  // Under a test runner the variable says "test", which would bundle the slow development React.
  process.env.NODE_ENV = 'production'
  await build({
    configFile: join(PROJECT_FOLDER, 'web/vite.config.ts'),
    logLevel: 'warn',
    build: {
      outDir: folder,
      emptyOutDir: true,
      rolldownOptions: { checks: { bundlerTimings: false } },
    },
  })
  await bundleServiceWorker(folder)
}
