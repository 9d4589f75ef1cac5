import { fileURLToPath } from 'node:url'
import react from '@vitejs/plugin-react'
import { defineConfig } from 'vite'

const projectFolder = fileURLToPath(new URL('..', import.meta.url))

export default defineConfig({
  root: fileURLToPath(new URL('.', import.meta.url)),
  plugins: [react()],
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
