import { createHash } from 'node:crypto'
import { readdirSync, readFileSync, statSync } from 'node:fs'
import { join } from 'node:path'
import { PROJECT_FOLDER } from './project.mjs'

/**
 * @param {string} path below the project folder
 * @returns {string[]} the file itself, or every file below the folder, sorted
 */
function filesBelow(path) {
  const full = join(PROJECT_FOLDER, path)
  if (statSync(full).isFile()) return [path]
  return readdirSync(full, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name).slice(PROJECT_FOLDER.length))
    .sort()
}

/**
 * One hash over names and contents, so that a changed, added or removed file changes it
 * while a fresh checkout of the same files does not.
 * @param {string[]} paths files and folders below the project folder
 */
export function fingerprint(paths) {
  const hash = createHash('sha256')
  for (const file of paths.flatMap(filesBelow)) {
    hash.update(`${file}\0`)
    hash.update(readFileSync(join(PROJECT_FOLDER, file)))
    hash.update('\0')
  }
  return hash.digest('hex')
}
