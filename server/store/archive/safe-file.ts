import { open, rename, rm } from 'node:fs/promises'
import { dirname } from 'node:path'

/**
 * Writes a file beside its place and puts it there when it is whole and on the disk. Whatever goes
 * wrong, the place holds what it held before.
 */
export async function replaceFile(
  file: string,
  write: (unfinished: string) => Promise<void>,
): Promise<void> {
  const unfinished = unfinishedName(file)
  try {
    await write(unfinished)
    await syncPath(unfinished)
    await rename(unfinished, file)
  } catch (error) {
    await rm(unfinished, { force: true })
    throw error
  }
  await syncPath(dirname(file))
}

/** Ends the name of a file that is not whole. */
export const UNFINISHED = '.part'
/** Begins the name of a folder that stands beside a file as long as it is written. */
export const SPOOL = '.spool-'

function unfinishedName(file: string): string {
  return `${file}.${process.pid}${UNFINISHED}`
}

/** Waits until a file, or the names in a folder, are on the disk. */
export async function syncPath(path: string): Promise<void> {
  const handle = await open(path, 'r')
  try {
    await handle.sync()
  } finally {
    await handle.close()
  }
}
