import { spawnSync } from 'node:child_process'
import { findChromium } from './find-chromium.mjs'

export const HOW_TO_INSTALL =
  'No browser of the Chromium family was found. Install one (Debian: apt-get install chromium; ' +
  'macOS: brew install --cask chromium; Windows: winget install Google.Chrome) ' +
  'or set CHROMIUM_PATH to the program.'

/** @type {Partial<Record<NodeJS.Platform, string[][]>>} */
const INSTALLERS = {
  linux: [
    ['apt-get', 'update'],
    ['apt-get', 'install', '-y', '--no-install-recommends', 'chromium', 'fonts-dejavu-core'],
  ],
  darwin: [['brew', 'install', '--cask', 'chromium']],
  win32: [
    [
      'winget',
      'install',
      '--exact',
      '--id',
      'Google.Chrome',
      '--accept-package-agreements',
      '--accept-source-agreements',
    ],
  ],
}

/** Debian's installer needs the rights of root; the others ask by themselves. */
const mayInstall = () => process.platform !== 'linux' || process.getuid?.() === 0

/**
 * Finds a whole browser, and where there is none tries to install one the way the platform does it.
 * Throws with what to install when that is not possible.
 */
export function ensureChromium() {
  if (findChromium({ isWhole: true })) return
  const commands = INSTALLERS[process.platform]
  if (!commands || !mayInstall()) throw new Error(HOW_TO_INSTALL)
  for (const [program = '', ...args] of commands) {
    console.log(`No browser found; running: ${program} ${args.join(' ')}`)
    const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' }
    if (spawnSync(program, args, { stdio: 'inherit', env }).status !== 0) break
  }
  if (!findChromium({ isWhole: true })) throw new Error(HOW_TO_INSTALL)
}
