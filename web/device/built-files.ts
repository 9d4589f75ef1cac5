import { createHash } from 'node:crypto'
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'

/** A file that the device keeps; without a revision where its name already tells its content. */
export interface BuiltFile {
  readonly url: string
  readonly revision: string | null
}

/** The bundler puts a fingerprint into names under here. */
const FINGERPRINTED = 'assets/'
/** What pages need none of: maps of the sources, and the worker that keeps the others. */
const LEFT_OUT = /\.map$|^service-worker\.js$|\.txt$/

/** Files of a finished build that the device keeps, in the order of their names. */
export function builtFiles(folder: string): BuiltFile[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map(({ parentPath, name }) => join(parentPath, name).slice(folder.length + 1))
    .map((path) => path.replaceAll('\\', '/'))
    .filter((path) => !LEFT_OUT.test(path))
    .sort()
    .map((path) => ({
      url: `/${path}`,
      revision: path.startsWith(FINGERPRINTED) ? null : hashOf(join(folder, path)),
    }))
}

function hashOf(file: string): string {
  return createHash('sha256').update(readFileSync(file)).digest('hex').slice(0, 16)
}
