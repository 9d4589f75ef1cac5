import { fileURLToPath } from 'node:url'
import react from '@vitejs/plugin-react'
import { build, defineConfig, type Plugin } from 'vite'
import { builtFiles } from './device/built-files.ts'

const projectFolder = fileURLToPath(new URL('..', import.meta.url))

const webFolder = fileURLToPath(new URL('.', import.meta.url))

/**
 * Bundles the worker that keeps the pages on the device, once all other files are written, with
 * their list in it. It is one file without imports, so that every browser takes it.
 */
const serviceWorker = (): Plugin => ({
  name: 'service-worker',
  apply: 'build',
  writeBundle: async ({ dir = '' }) => {
    await build({
      configFile: false,
      root: webFolder,
      publicDir: false,
      logLevel: 'warn',
      define: {
        BUILT_FILES: JSON.stringify(builtFiles(dir)),
        'process.env.NODE_ENV': '"production"',
      },
      build: {
        target: 'es2022',
        outDir: dir,
        emptyOutDir: false,
        rolldownOptions: {
          input: `${webFolder}device/service-worker.ts`,
          output: { format: 'iife', entryFileNames: 'service-worker.js' },
        },
      },
    })
  },
})

export default defineConfig({
  root: webFolder,
  plugins: [react(), serviceWorker()],
  cacheDir: `${projectFolder}/node_modules/.vite`,
  build: {
    target: 'es2022',
    sourcemap: true,
    // The content security policy allows no data: addresses, so nothing may be inlined.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    chunkSizeWarningLimit: 1500,
    rolldownOptions: {
      output: {
        // The map library is half of the whole and changes rarely: a file of its own stays cached.
        codeSplitting: { groups: [{ name: 'map-library', test: /node_modules\/maplibre-gl/ }] },
      },
    },
  },
  worker: { format: 'es' },
  server: {
    host: '127.0.0.1',
    fs: { allow: [projectFolder] },
    // The host that the browser asked stays in the request: the server takes changes from its own pages only.
    proxy: {
      '/api': { target: process.env.CROSSARM_API ?? 'http://127.0.0.1:8080', changeOrigin: false },
    },
  },
})
