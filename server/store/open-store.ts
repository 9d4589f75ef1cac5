import { mkdir } from 'node:fs/promises'
import { join } from 'node:path'
import type { Store } from '../services/ports.ts'
import { feederRepository } from './feeder-repository.ts'
import { claimFolder } from './folder-claim.ts'
import { landRepository } from './land-repository.ts'
import { migrate } from './migrate.ts'
import { proposalRepository } from './proposal-repository.ts'
import { protectionRepository } from './protection-repository.ts'
import { openSqlite } from './sqlite.ts'
import { studyRepository } from './study-repository.ts'

export const DATABASE_FILE = 'crossarm.sqlite'

export interface OpenStore extends Store {
  /** True where another process had the folder open first. */
  readonly isShared: boolean
  close(): Promise<void>
}

/**
 * Opens the database in the folder, which is made where it is missing, and brings its tables up to date.
 *
 * @throws Error naming the folder where it cannot be written or the database cannot be read.
 */
export async function openStore(folder: string): Promise<OpenStore> {
  try {
    await mkdir(folder, { recursive: true })
    return await openDatabase(folder)
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error)
    throw new Error(
      `The data folder ${folder} cannot be used: ${reason} Set CROSSARM_DATA to a folder that can be written.`,
      { cause: error },
    )
  }
}

async function openDatabase(folder: string): Promise<OpenStore> {
  const claim = claimFolder(folder)
  const db = openSqlite(join(folder, DATABASE_FILE))
  const close = async () => {
    await db.destroy()
    claim.release()
  }
  try {
    await migrate(db)
  } catch (error) {
    await close()
    throw error
  }
  return {
    isShared: !claim.isHeld,
    feeders: feederRepository(db),
    land: landRepository(db),
    proposals: proposalRepository(db),
    protections: protectionRepository(db),
    studies: studyRepository(db),
    close,
  }
}
