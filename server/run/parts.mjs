import { existsSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { bundleServer } from './bundle-server.mjs'
import { bundleWeb } from './bundle-web.mjs'
import { fingerprint } from './fingerprint.mjs'
import { PROJECT_FOLDER } from './project.mjs'
import { takeTurn } from './turn.mjs'

/**
 * What the build makes: each part has its own folder in dist/, the sources it is made of,
 * and the fingerprint of those sources beside the result.
 * @typedef {{ name: string, sources: string[], bundle: (folder: string) => Promise<void> }} Part
 */

const SETTINGS = ['package.json', 'package-lock.json', 'tsconfig.json']
const STAMP = 'built-from.txt'

/** @type {Part} */
export const SERVER_PART = {
  name: 'server',
  sources: ['server', ...SETTINGS],
  bundle: bundleServer,
}

/** @type {Part} */
export const WEB_PART = {
  name: 'web',
  sources: ['web', 'server/domain', 'server/contract', 'server/run', ...SETTINGS],
  bundle: bundleWeb,
}

/** @param {Part} part */
const folderOf = (part) => join(PROJECT_FOLDER, 'dist', part.name)

/** @param {Part} part */
function isCurrent(part) {
  const stamp = join(folderOf(part), STAMP)
  return existsSync(stamp) && readFileSync(stamp, 'utf8') === fingerprint(part.sources)
}

/**
 * Builds into a folder beside the old result and swaps the two at the end, so that a failed
 * or interrupted build leaves the old one whole.
 * @param {Part} part
 */
async function buildAndSwap(part) {
  const folder = folderOf(part)
  const next = `${folder}.next`
  const old = `${folder}.old`
  const builtFrom = fingerprint(part.sources)
  rmSync(next, { recursive: true, force: true })
  mkdirSync(next)
  try {
    await part.bundle(next)
    writeFileSync(join(next, STAMP), builtFrom)
    rmSync(old, { recursive: true, force: true })
    if (existsSync(folder)) renameSync(folder, old)
    renameSync(next, folder)
  } finally {
    rmSync(next, { recursive: true, force: true })
    rmSync(old, { recursive: true, force: true })
  }
}

/** @param {Part} part */
export function buildPart(part) {
  return takeTurn(`${folderOf(part)}.building`, () => buildAndSwap(part))
}

/**
 * Builds the parts whose sources changed since they were last built.
 * @param {Part[]} parts
 */
export async function buildStaleParts(parts) {
  for (const part of parts) {
    if (isCurrent(part)) continue
    console.error(`Building ${part.name} …`)
    await takeTurn(`${folderOf(part)}.building`, async () => {
      if (!isCurrent(part)) await buildAndSwap(part)
    })
  }
}
