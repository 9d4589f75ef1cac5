import { execFileSync } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

export interface SmallDisk {
  readonly folder: string
  readonly makeReadOnly: () => void
  readonly remove: () => void
}

/** A disk of a few megabytes in memory; null where this user may not mount one, which is said. */
export function mountSmallDisk(megabytes: number): SmallDisk | null {
  const folder = mkdtempSync(join(tmpdir(), 'crossarm-disk-'))
  const run = (program: string, ...args: string[]) =>
    execFileSync(program, args, { stdio: ['ignore', 'ignore', 'ignore'] })
  try {
    run('mount', '-t', 'tmpfs', '-o', `size=${megabytes}m`, 'tmpfs', folder)
  } catch {
    rmSync(folder, { recursive: true })
    console.warn('This user may not mount a disk: a full and a read-only disk are not tested.')
    return null
  }
  return {
    folder,
    makeReadOnly: () => run('mount', '-o', 'remount,ro', folder),
    remove: () => {
      run('umount', '-l', folder)
      rmSync(folder, { recursive: true })
    },
  }
}
