import { mkdir } from 'node:fs/promises'
import { join } from 'node:path'
import type { PeopleStore } from '../services/people-ports.ts'
import type { Store } from '../services/ports.ts'
import { attachmentFiles, removeUnfinished } from './attachment-files.ts'
import { attachmentRepository } from './attachment-repository.ts'
import { Database } from './database.ts'
import { feederRepository } from './feeder-repository.ts'
import { claimFolder } from './folder-claim.ts'
import { hearingOf } from './hear-commits.ts'
import { historyRepository } from './history.ts'
import { landRepository } from './land-repository.ts'
import { migrate } from './migrate.ts'
import { personRepository } from './person-repository.ts'
import { openPostgres } from './postgres.ts'
import { proposalRepository } from './proposal-repository.ts'
import { protectionRepository } from './protection-repository.ts'
import { requestKeyRepository } from './request-key-repository.ts'
import { sessionRepository } from './session-repository.ts'
import { openSqlite } from './sqlite.ts'
import { tokenRepository } from './token-repository.ts'
import { tryRepository } from './try-repository.ts'
import { workRepository } from './work-repository.ts'

export const DATABASE_FILE = 'crossarm.sqlite'

/** Another server of the same folder may be taking in what was written to since. */
const UPLOAD_MS = 60 * 60 * 1000

export interface StoreOptions {
  /** Folder of attached files, and of the database where it is SQLite; made where it is missing. */
  readonly dataFolder: string
  /** A PostgreSQL database in place of the file. */
  readonly databaseUrl?: string
  /** Told of what breaks where nobody asked. */
  readonly reportFault?: (fault: unknown) => void
}

export interface OpenStore extends Store, PeopleStore {
  readonly database: Database
  readonly dataFolder: string
  /** True where another process had the folder open first. */
  readonly isShared: boolean
  close(): Promise<void>
}

/**
 * Opens the database and brings its tables up to date.
 *
 * @throws Error naming the folder where it cannot be written or the database cannot be read.
 */
export async function openStore(options: StoreOptions): Promise<OpenStore> {
  try {
    await mkdir(options.dataFolder, { recursive: true })
    return await openDatabase(options)
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error)
    throw new Error(`${cannotUse(options)}: ${reason} ${adviceFor(options)}`, { cause: error })
  }
}

/** The address may hold a password, so it is not said. */
function cannotUse({ dataFolder, databaseUrl }: StoreOptions): string {
  return databaseUrl === undefined
    ? `The data folder ${dataFolder} cannot be used`
    : 'The database of DATABASE_URL cannot be used'
}

function adviceFor({ databaseUrl }: StoreOptions): string {
  return databaseUrl === undefined
    ? 'Set CROSSARM_DATA to a folder that can be written.'
    : 'Look whether it runs, and whether name and password are right.'
}

async function openDatabase(options: StoreOptions): Promise<OpenStore> {
  const { dataFolder, databaseUrl, reportFault = () => undefined } = options
  const claim = databaseUrl === undefined ? claimFolder(dataFolder) : null
  const connections =
    databaseUrl === undefined
      ? openSqlite(join(dataFolder, DATABASE_FILE))
      : openPostgres(databaseUrl, reportFault)
  const database = new Database(connections)
  const hearing = hearingOf(database, databaseUrl, reportFault)
  const close = async () => {
    await hearing.close()
    await database.close()
    claim?.release()
  }
  try {
    await migrate(database.plain, database.kind)
    await removeUnfinished(dataFolder, claim?.isHeld ? 0 : UPLOAD_MS)
  } catch (error) {
    await close()
    throw error
  }
  return {
    database,
    dataFolder,
    isShared: claim !== null && !claim.isHeld,
    history: historyRepository(database),
    attachments: attachmentRepository(database, attachmentFiles(dataFolder), reportFault),
    requestKeys: requestKeyRepository(database),
    together: (work) => database.transaction(work),
    onChange: hearing.onChange,
    feeders: feederRepository(database),
    land: landRepository(database),
    people: personRepository(database),
    proposals: proposalRepository(database),
    protections: protectionRepository(database),
    sessions: sessionRepository(database),
    tokens: tokenRepository(database),
    tries: tryRepository(database),
    work: workRepository(database),
    close,
  }
}
