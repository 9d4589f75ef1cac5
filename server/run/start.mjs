import { installPackages } from './packages.mjs'
import { buildStaleParts, SERVER_PART, WEB_PART } from './parts.mjs'
import { giveUp } from './project.mjs'

try {
  await installPackages()
  await buildStaleParts([SERVER_PART, WEB_PART])
  const { runServer } = await import(String(new URL('../../dist/server/main.js', import.meta.url)))
  await runServer(process.env)
} catch (error) {
  giveUp(error)
}
