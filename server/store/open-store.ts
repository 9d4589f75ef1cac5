import { mkdir } from 'node:fs/promises'
import { join } from 'node:path'
import type { Store } from '../services/ports.ts'
import { feederRepository } from './feeder-repository.ts'
import { landRepository } from './land-repository.ts'
import { migrate } from './migrate.ts'
import { proposalRepository } from './proposal-repository.ts'
import { protectionRepository } from './protection-repository.ts'
import { openSqlite } from './sqlite.ts'
import { studyRepository } from './study-repository.ts'

export const DATABASE_FILE = 'crossarm.sqlite'

export interface OpenStore extends Store {
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
    return await openDatabase(join(folder, DATABASE_FILE))
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error)
    throw new Error(
      `The data folder ${folder} cannot be used: ${reason} Set CROSSARM_DATA to a folder that can be written.`,
      { cause: error },
    )
  }
}

async function openDatabase(file: string): Promise<OpenStore> {
  const db = openSqlite(file)
  try {
    await migrate(db)
  } catch (error) {
    await db.destroy()
    throw error
  }
  return {
    feeders: feederRepository(db),
    land: landRepository(db),
    proposals: proposalRepository(db),
    protections: protectionRepository(db),
    studies: studyRepository(db),
    close: () => db.destroy(),
  }
}
