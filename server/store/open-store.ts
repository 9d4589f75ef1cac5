import { mkdir } from 'node:fs/promises'
import { join } from 'node:path'
import type { PeopleStore } from '../services/people-ports.ts'
import type { Store } from '../services/ports.ts'
import { backUpBeforeSteps } from './archive/back-up-before-steps.ts'
import { refuseUnfinishedMove } from './archive/unfinished-move.ts'
import { asLeftRepository } from './as-left-repository.ts'
import { attachmentFiles, removeUnfinished } from './attachment-files.ts'
import { attachmentRepository } from './attachment-repository.ts'
import { birdSettingsRepository } from './bird-settings-repository.ts'
import { Database } from './database.ts'
import { feederRepository } from './feeder-repository.ts'
import { claimFolder, type FolderClaim } from './folder-claim.ts'
import { hearingOf } from './hear-commits.ts'
import { historyRepository } from './history.ts'
import { incidentRepository } from './incident-repository.ts'
import { jobRepository } from './job-repository.ts'
import { landRepository } from './land-repository.ts'
import { migrate } from './migrate.ts'
import { nestRepository } from './nest-repository.ts'
import { personRepository } from './person-repository.ts'
import { DATABASE_FILE, type Place } from './place.ts'
import { poleTopRepository } from './pole-top-repository.ts'
import { openPostgres } from './postgres.ts'
import { programmeRepository } from './programme-repository.ts'
import { proposalRepository } from './proposal-repository.ts'
import { protectionRepository } from './protection-repository.ts'
import { reportFiles } from './report-files.ts'
import { requestKeyRepository } from './request-key-repository.ts'
import { sessionRepository } from './session-repository.ts'
import { openSqlite } from './sqlite.ts'
import { stepSequenceRepository } from './step-sequence-repository.ts'
import { tokenRepository } from './token-repository.ts'
import { tryRepository } from './try-repository.ts'
import { workRepository } from './work-repository.ts'

/** Another server of the same folder may be taking in what was written to since. */
const UPLOAD_MS = 60 * 60 * 1000

/** The folder is made where it is missing. */
export interface StoreOptions extends Place {
  /** Keeps the folder of a file for itself as long as it is open; other programs may still look in. */
  readonly isServer?: boolean
  /** Where the database is kept before it is brought up to date; `backups` in the data folder when left out. */
  readonly backupsFolder?: string
  /** Of the program, noted in that backup. */
  readonly version?: string
  /** Told of what breaks where nobody asked. */
  readonly reportFault?: (fault: unknown) => void
}

export interface OpenStore extends Store, PeopleStore {
  readonly database: Database
  readonly dataFolder: string
  close(): Promise<void>
}

/**
 * Opens the database and brings its tables up to date, after a backup where it holds something.
 *
 * @throws Error naming the folder where it cannot be written, the database cannot be read, or
 * another server has it.
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
  const claim = databaseUrl === undefined ? claimFor(options) : null
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
    await bringUpToDate(database, options)
    await removeUnfinished(dataFolder, claim?.isHeld ? 0 : UPLOAD_MS)
    if (!options.isServer) claim?.release()
  } catch (error) {
    await close()
    throw error
  }
  return {
    database,
    dataFolder,
    history: historyRepository(database),
    attachments: attachmentRepository(database, attachmentFiles(dataFolder), reportFault),
    reports: reportFiles(dataFolder),
    requestKeys: requestKeyRepository(database),
    together: (work) => database.transaction(work),
    onChange: hearing.onChange,
    feeders: feederRepository(database),
    land: landRepository(database),
    people: personRepository(database),
    proposals: proposalRepository(database),
    protections: protectionRepository(database),
    nests: nestRepository(database),
    incidents: incidentRepository(database),
    poleTops: poleTopRepository(database),
    programmes: programmeRepository(database),
    birdSettings: birdSettingsRepository(database),
    jobs: jobRepository(database),
    asLeft: asLeftRepository(database),
    stepSequences: stepSequenceRepository(database),
    sessions: sessionRepository(database),
    tokens: tokenRepository(database),
    tries: tryRepository(database),
    work: workRepository(database),
    close,
  }
}

/** @throws Error where a second server would run on one file */
function claimFor({ dataFolder, isServer = false }: StoreOptions): FolderClaim {
  const claim = claimFolder(dataFolder)
  if (claim.isHeld || !isServer) return claim
  throw new Error(
    'Another server runs on it. One file takes one server: stop the other, or set DATABASE_URL to a PostgreSQL database, which takes many.',
  )
}

async function bringUpToDate(database: Database, options: StoreOptions): Promise<void> {
  const { dataFolder, backupsFolder, version = 'unnamed' } = options
  await refuseUnfinishedMove(database.plain, database.kind)
  const folder = backupsFolder ?? join(dataFolder, 'backups')
  await backUpBeforeSteps(database.plain, options, { folder, version })
  await migrate(database.plain, database.kind)
}
