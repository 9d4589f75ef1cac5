import { join } from 'node:path'
import SqliteFile from 'better-sqlite3'

export const CLAIM_FILE = 'in-use.sqlite'

/** A server that is just stopping may still hold the claim for so long. */
const WAIT_MS = 500

export interface FolderClaim {
  /** False where another process holds the folder. */
  readonly isHeld: boolean
  release(): void
}

/**
 * Claims the data folder for this process. The claim is a lock of the operating system on an open
 * file, which ends with the process however that ends; the file itself stays and says nothing.
 */
export function claimFolder(folder: string): FolderClaim {
  const file = new SqliteFile(join(folder, CLAIM_FILE), { timeout: WAIT_MS })
  try {
    file.exec('begin exclusive')
    return { isHeld: true, release: () => file.close() }
  } catch (error) {
    file.close()
    if (error instanceof SqliteFile.SqliteError && error.code === 'SQLITE_BUSY') {
      return { isHeld: false, release: () => undefined }
    }
    throw error
  }
}
