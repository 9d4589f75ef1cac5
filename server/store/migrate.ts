import { type Kysely, type Migration, Migrator } from 'kysely'
import * as feeders from './migrations/0001-feeders.ts'
import * as studiesAndProposals from './migrations/0002-studies-and-proposals.ts'
import * as protectionsAndHistory from './migrations/0003-protections-and-history.ts'
import type { Tables } from './tables.ts'

/** In order of their numbers; a number that was released is never changed again. */
const MIGRATIONS: Readonly<Record<string, Migration>> = {
  '0001-feeders': feeders,
  '0002-studies-and-proposals': studiesAndProposals,
  '0003-protections-and-history': protectionsAndHistory,
}

/**
 * Brings the tables up to date, all steps in one transaction.
 *
 * @throws Error where a step fails or the database was written by a newer program.
 */
export async function migrate(db: Kysely<Tables>): Promise<void> {
  const provider = { getMigrations: async () => ({ ...MIGRATIONS }) }
  const { error } = await new Migrator({ db, provider }).migrateToLatest()
  if (error === undefined) return
  const reason = error instanceof Error ? error.message : String(error)
  throw new Error(`The database could not be brought up to date: ${reason}`, { cause: error })
}
