import { installPackages } from './packages.mjs'
import { buildPart, SERVER_PART, WEB_PART } from './parts.mjs'
import { giveUp } from './project.mjs'

try {
  await installPackages()
  await buildPart(SERVER_PART)
  await buildPart(WEB_PART)
  console.log('Built dist/server and dist/web.')
} catch (error) {
  giveUp(error)
}
