import { accessSync, constants, existsSync } from 'node:fs'
import { delimiter, join } from 'node:path'

const NAMES = [
  'chromium',
  'chromium-browser',
  'google-chrome',
  'google-chrome-stable',
  'microsoft-edge',
  'chrome',
]

const MAC_PLACES = [
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
]

const WINDOWS_PLACES = [
  'Chromium\\Application\\chrome.exe',
  'Google\\Chrome\\Application\\chrome.exe',
  'Microsoft\\Edge\\Application\\msedge.exe',
]

/**
 * Where a browser of the Chromium family usually lies on this platform.
 * @returns {string[]}
 */
function usualPlaces() {
  const { PATH = '', LOCALAPPDATA, PROGRAMFILES } = process.env
  if (process.platform === 'win32') {
    const roots = [PROGRAMFILES, process.env['PROGRAMFILES(X86)'], LOCALAPPDATA]
    return roots.flatMap((root) => (root ? WINDOWS_PLACES.map((place) => join(root, place)) : []))
  }
  const onPath = NAMES.flatMap((name) => PATH.split(delimiter).map((folder) => join(folder, name)))
  return process.platform === 'darwin' ? [...MAC_PLACES, ...onPath] : onPath
}

/** @param {string} path */
function isProgram(path) {
  try {
    accessSync(path, constants.X_OK)
    return true
  } catch {
    return false
  }
}

/**
 * Path of the browser that CHROMIUM_PATH names, else of one in the usual places, else null.
 * Throws when CHROMIUM_PATH names a file that is not there.
 * @returns {string | null}
 */
export function findChromium() {
  const named = process.env.CHROMIUM_PATH
  if (!named) return usualPlaces().find(isProgram) ?? null
  if (!existsSync(named)) throw new Error(`CHROMIUM_PATH names ${named}, which does not exist.`)
  return named
}
