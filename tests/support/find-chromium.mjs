import { accessSync, constants, existsSync } from 'node:fs'
import { delimiter, join } from 'node:path'

/** Draws pages and nothing around them, for half the processor time of a start; it has no camera. */
const WITHOUT_WINDOWS = 'chromium-headless-shell'

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
 * @param {string[]} names of the program on the path
 * @returns {string[]}
 */
function usualPlaces(names) {
  const { PATH = '', LOCALAPPDATA, PROGRAMFILES } = process.env
  if (process.platform === 'win32') {
    const roots = [PROGRAMFILES, process.env['PROGRAMFILES(X86)'], LOCALAPPDATA]
    return roots.flatMap((root) => (root ? WINDOWS_PLACES.map((place) => join(root, place)) : []))
  }
  const onPath = names.flatMap((name) => PATH.split(delimiter).map((folder) => join(folder, name)))
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
 * @param {{ isWhole?: boolean }} [wanted] `isWhole`: with camera and windows, not only what draws pages
 * @returns {string | null}
 */
export function findChromium({ isWhole = false } = {}) {
  const named = process.env.CHROMIUM_PATH
  const names = isWhole ? NAMES : [WITHOUT_WINDOWS, ...NAMES]
  if (!named) return usualPlaces(names).find(isProgram) ?? null
  if (!existsSync(named)) throw new Error(`CHROMIUM_PATH names ${named}, which does not exist.`)
  return named
}
