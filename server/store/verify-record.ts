import { existsSync } from 'node:fs'
import { join } from 'node:path'
import type { Kysely, Transaction } from 'kysely'
import type { RecordReport } from '../services/record-report.ts'
import { AS_LEFT_KIND } from './as-left-repository.ts'
import { ATTACHMENT_KIND } from './attachment-repository.ts'
import { BIRD_SETTINGS_KIND } from './bird-settings-repository.ts'
import { checkAttachments } from './check-attachments.ts'
import { CHECK_DATABASE } from './check-database.ts'
import { checkFeeders } from './check-feeders.ts'
import { checkRows } from './check-rows.ts'
import { type Connections, Database } from './database.ts'
import { readEntries } from './history.ts'
import { checkChain } from './history-chain.ts'
import { INCIDENT_KIND } from './incident-repository.ts'
import { checkJobEntries } from './job-entries.ts'
import { JOB_KIND } from './job-repository.ts'
import { stepsAhead, stepsTaken } from './migrate.ts'
import { NEST_KIND } from './nest-repository.ts'
import { DATABASE_FILE, type Place } from './place.ts'
import { POLE_TOP_KIND } from './pole-top-repository.ts'
import { openPostgres } from './postgres.ts'
import { PROGRAMME_KIND } from './programme-repository.ts'
import { PROPOSAL_KIND } from './proposal-repository.ts'
import { PROTECTION_KIND } from './protection-repository.ts'
import { openSqlite } from './sqlite.ts'
import { STEP_SEQUENCE_KIND } from './step-sequence-repository.ts'
import type { Tables } from './tables.ts'

/**
 * Checks the whole record, from one state of the database, without changing anything. May run
 * beside a server.
 *
 * @param knownHead hash of a head of the chain that was noted down earlier
 * @throws Error where there is no database, or one of another version of the program.
 */
export async function verifyRecord(
  { dataFolder, databaseUrl }: Place,
  knownHead?: string,
): Promise<RecordReport> {
  const connections = openToRead(dataFolder, databaseUrl)
  try {
    const checked = await inOneState(connections, async (db) => {
      await refuseOtherVersion(db, connections)
      return {
        database: await CHECK_DATABASE[connections.kind](db),
        chain: await checkChain(readEntries(db), knownHead),
        rows: [
          ...(await checkFeeders(db)),
          ...(await checkRows(db, PROTECTION_KIND)),
          ...(await checkRows(db, NEST_KIND)),
          ...(await checkRows(db, INCIDENT_KIND)),
          ...(await checkRows(db, POLE_TOP_KIND)),
          ...(await checkRows(db, PROGRAMME_KIND)),
          ...(await checkRows(db, BIRD_SETTINGS_KIND)),
          ...(await checkRows(db, JOB_KIND)),
          ...(await checkJobEntries(db)),
          ...(await checkRows(db, AS_LEFT_KIND)),
          ...(await checkRows(db, STEP_SEQUENCE_KIND)),
          ...(await checkRows(db, PROPOSAL_KIND)),
          ...(await checkRows(db, ATTACHMENT_KIND)),
        ],
      }
    })
    return { ...checked, ...(await checkFiles(new Database(connections), dataFolder)) }
  } finally {
    await connections.reader.destroy()
    if (connections.writer !== connections.reader) await connections.writer.destroy()
  }
}

async function checkFiles(database: Database, dataFolder: string) {
  const { whole, missing, altered, unreferenced } = await checkAttachments(database, dataFolder)
  return {
    files: [
      ...missing.map((id) => `The file of attachment ${id} is missing.`),
      ...altered.map((file) => `${file} is not what was taken in.`),
    ],
    wholeFiles: whole,
    leftFiles: unreferenced,
  }
}

function openToRead(dataFolder: string, databaseUrl: string | undefined): Connections {
  if (databaseUrl !== undefined) return openPostgres(databaseUrl, () => undefined)
  const file = join(dataFolder, DATABASE_FILE)
  if (existsSync(file)) return openSqlite(file)
  throw new Error(`There is no database in ${dataFolder}. Name its folder in CROSSARM_DATA.`)
}

/** SQLite reads one state throughout a transaction; PostgreSQL has to be asked to. */
function inOneState<Result>(
  { kind, reader }: Connections,
  read: (transaction: Transaction<Tables>) => Promise<Result>,
): Promise<Result> {
  const transaction = reader.transaction()
  return (
    kind === 'postgres' ? transaction.setIsolationLevel('repeatable read') : transaction
  ).execute(read)
}

async function refuseOtherVersion(db: Kysely<Tables>, { kind }: Connections): Promise<void> {
  const ahead = stepsAhead(await stepsTaken(db, kind))
  if (ahead.length === 0) return
  throw new Error(
    'The database was written by an older version of the program. Start the server once, which brings it up to date, then verify.',
  )
}
