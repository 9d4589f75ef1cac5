import { installPackages } from './packages.mjs'
import { buildStaleParts, SERVER_PART, WEB_PART } from './parts.mjs'
import { giveUp } from './project.mjs'

try {
  await installPackages()
  await buildStaleParts([SERVER_PART, WEB_PART])
} catch (error) {
  giveUp(error)
}
await import(String(new URL('../../dist/server/main.js', import.meta.url)))
