import { installPackages } from './packages.mjs'
import { buildStaleParts, SERVER_PART } from './parts.mjs'
import { giveUp } from './project.mjs'

try {
  await installPackages()
  await buildStaleParts([SERVER_PART])
} catch (error) {
  giveUp(error)
}
await import(String(new URL('../../dist/server/cli.js', import.meta.url)))
