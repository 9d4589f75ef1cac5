import { type Kysely, type RawBuilder, sql } from 'kysely'
import type { DatabaseKind } from './database.ts'
import * as feeders from './migrations/0001-feeders.ts'
import * as studiesAndProposals from './migrations/0002-studies-and-proposals.ts'
import * as protectionsAndHistory from './migrations/0003-protections-and-history.ts'
import * as historyChain from './migrations/0004-history-chain.ts'
import * as people from './migrations/0005-people.ts'
import * as attachments from './migrations/0006-attachments.ts'
import * as work from './migrations/0007-work.ts'
import * as requestKeys from './migrations/0008-request-keys.ts'
import * as tellOfChanges from './migrations/0009-tell-of-changes.ts'
import * as backupTurns from './migrations/0010-backup-turns.ts'
import * as birds from './migrations/0011-birds.ts'
import * as jobs from './migrations/0012-jobs.ts'

/** One step from one form of the tables to the next. */
export interface MigrationStep {
  up(db: Kysely<unknown>, kind: DatabaseKind): Promise<void>
}

/** In order of their numbers; a number that was released is never changed again. */
export const MIGRATIONS: Readonly<Record<string, MigrationStep>> = {
  '0001-feeders': feeders,
  '0002-studies-and-proposals': studiesAndProposals,
  '0003-protections-and-history': protectionsAndHistory,
  '0004-history-chain': historyChain,
  '0005-people': people,
  '0006-attachments': attachments,
  '0007-work': work,
  '0008-request-keys': requestKeys,
  '0009-tell-of-changes': tellOfChanges,
  '0010-backup-turns': backupTurns,
  '0011-birds': birds,
  '0012-jobs': jobs,
}

const TURN_TO_MIGRATE = 724_002

/** Name and form are those that the first databases were given; they hold what was done. */
const STEPS_TABLE = 'kysely_migration'

interface StepTable {
  readonly kysely_migration: { readonly name: string; readonly timestamp: string }
}

const FIND_STEPS_TABLE: Readonly<Record<DatabaseKind, RawBuilder<unknown>>> = {
  sqlite: sql`select 1 from sqlite_schema where type = 'table' and name = ${STEPS_TABLE}`,
  postgres: sql`select 1 where to_regclass(${STEPS_TABLE}) is not null`,
}

/**
 * Brings the tables up to date, all steps in one transaction, or in the one that is handed in: where
 * one of them fails, the database is as before. Several processes may try at once.
 *
 * @param to last step to take; the newest when left out
 * @throws Error where a step fails or the database was written by a newer program.
 */
export async function migrate<Known>(
  db: Kysely<Known>,
  kind: DatabaseKind,
  to?: string,
): Promise<void> {
  const untyped = db as unknown as Kysely<unknown>
  if (untyped.isTransaction) await takeSteps(untyped, kind, to)
  else await untyped.transaction().execute((transaction) => takeSteps(transaction, kind, to))
}

/**
 * Names of the steps that the database has taken, in their order; none for an empty one.
 *
 * @throws Error where one of them is unknown: a newer program wrote it.
 */
export async function stepsTaken<Known>(db: Kysely<Known>, kind: DatabaseKind): Promise<string[]> {
  const untyped = db as unknown as Kysely<StepTable>
  const { rows } = await FIND_STEPS_TABLE[kind].execute(untyped)
  if (rows.length === 0) return []
  const steps = await untyped.selectFrom(STEPS_TABLE).select('name').execute()
  const taken = steps.map(({ name }) => name).sort()
  refuseUnknown(taken)
  return taken
}

/** Names of the steps that this program has and the database has not taken. */
export function stepsAhead(taken: readonly string[]): string[] {
  return Object.keys(MIGRATIONS).filter((name) => !taken.includes(name))
}

function refuseUnknown(taken: readonly string[]): void {
  const unknown = taken.find((name) => !(name in MIGRATIONS))
  if (unknown === undefined) return
  throw new Error(
    `A newer version of Crossarm wrote this database: it has the step ${unknown}, which this version does not know. Use the newer version, or restore a backup of before.`,
  )
}

async function takeSteps(
  transaction: Kysely<unknown>,
  kind: DatabaseKind,
  to: string | undefined,
): Promise<void> {
  if (kind === 'postgres') await takeTurn(transaction)
  await makeStepsTable(transaction)
  const taken = await stepsTaken(transaction, kind)
  const ahead = stepsAhead(taken).filter((name) => to === undefined || name <= to)
  for (const name of ahead) await takeStep(transaction, kind, name)
}

/** A long step of another process is waited for, however long other locks may be waited for. */
async function takeTurn(transaction: Kysely<unknown>): Promise<void> {
  await sql`set local lock_timeout = 0`.execute(transaction)
  await sql`select pg_advisory_xact_lock(${sql.lit(TURN_TO_MIGRATE)})`.execute(transaction)
}

async function makeStepsTable(transaction: Kysely<unknown>): Promise<void> {
  await transaction.schema
    .createTable(STEPS_TABLE)
    .ifNotExists()
    .addColumn('name', 'varchar(255)', (column) => column.notNull().primaryKey())
    .addColumn('timestamp', 'varchar(255)', (column) => column.notNull())
    .execute()
}

async function takeStep(
  transaction: Kysely<unknown>,
  kind: DatabaseKind,
  name: string,
): Promise<void> {
  try {
    await MIGRATIONS[name]?.up(transaction, kind)
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error)
    throw new Error(
      `The database could not be brought up to date and is as it was: step ${name} failed: ${reason}`,
      { cause: error },
    )
  }
  await (transaction as Kysely<StepTable>)
    .insertInto(STEPS_TABLE)
    .values({ name, timestamp: new Date().toISOString() })
    .execute()
}
