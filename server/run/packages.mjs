import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { PROJECT_FOLDER, runProgram } from './project.mjs'

/**
 * @typedef {{ version?: string, optional?: boolean, devOptional?: boolean }} LockedPackage
 * @typedef {{ packages: Record<string, LockedPackage> }} Lock
 */

/**
 * @param {string} path
 * @returns {Lock | null}
 */
function readLock(path) {
  if (!existsSync(path)) return null
  return JSON.parse(readFileSync(path, 'utf8'))
}

/**
 * True when every package of the lock file lies in node_modules at its locked version.
 * Optional packages are left out: those made for other platforms are never installed.
 */
export function arePackagesInstalled() {
  const wanted = readLock(join(PROJECT_FOLDER, 'package-lock.json'))
  const installed = readLock(join(PROJECT_FOLDER, 'node_modules/.package-lock.json'))
  if (!wanted) throw new Error('package-lock.json is missing: restore it from the repository.')
  if (!installed) return false
  return Object.entries(wanted.packages).every(
    ([path, { version, optional, devOptional }]) =>
      path === '' || optional || devOptional || installed.packages[path]?.version === version,
  )
}

/** Installs exactly what the lock file says when node_modules differs from it. */
export async function installPackages() {
  if (arePackagesInstalled()) return
  console.error(
    'Installing packages as package-lock.json lists them. This takes a few minutes once.',
  )
  const args = ['ci', '--include=dev', '--no-audit', '--no-fund']
  const npm = process.env.npm_execpath
  const code = npm
    ? await runProgram(process.execPath, [npm, ...args], { isOutputToStderr: true })
    : await runProgram('npm', args, { isOutputToStderr: true })
  if (code !== 0) {
    throw new Error(
      'Packages could not be installed: see the messages above. ' +
        'A network connection is needed, and a C++ compiler with Python 3 where better-sqlite3 has no ready-made binary.',
    )
  }
}
