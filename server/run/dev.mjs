import { spawn } from 'node:child_process'
import { createServer as createSocket } from 'node:net'
import { join } from 'node:path'
import { installPackages } from './packages.mjs'
import { giveUp, PROJECT_FOLDER } from './project.mjs'

/** @returns {Promise<number>} a port that nobody listens on */
function findFreePort() {
  return new Promise((resolve, reject) => {
    const socket = createSocket().once('error', reject)
    socket.listen(0, '127.0.0.1', () => {
      const address = socket.address()
      const port = typeof address === 'object' && address ? address.port : 0
      socket.close(() => resolve(port))
    })
  })
}

/** @param {number} port */
function startApi(port) {
  const tsx = join(PROJECT_FOLDER, 'node_modules/tsx/dist/cli.mjs')
  const child = spawn(process.execPath, [tsx, 'watch', '--clear-screen=false', 'server/main.ts'], {
    cwd: PROJECT_FOLDER,
    env: { ...process.env, HOST: '127.0.0.1', PORT: String(port) },
    stdio: 'inherit',
  })
  child.on('exit', (code) => process.exit(code ?? 1))
  return child
}

await installPackages().catch(giveUp)
const apiPort = await findFreePort()
const api = startApi(apiPort)
process.on('exit', () => api.kill())
for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => process.exit(0))

process.env.CROSSARM_API = `http://127.0.0.1:${apiPort}`
const { createServer } = await import('vite')
const pages = await createServer({ configFile: join(PROJECT_FOLDER, 'web/vite.config.ts') })
await pages.listen()
pages.printUrls()
