import { type Kysely, type Migration, Migrator } from 'kysely'
import type { DatabaseKind } from './database.ts'
import * as feeders from './migrations/0001-feeders.ts'
import * as studiesAndProposals from './migrations/0002-studies-and-proposals.ts'
import * as protectionsAndHistory from './migrations/0003-protections-and-history.ts'

/** One step from one form of the tables to the next. */
export interface MigrationStep {
  up(db: Kysely<unknown>, kind: DatabaseKind): Promise<void>
}

/** In order of their numbers; a number that was released is never changed again. */
export const MIGRATIONS: Readonly<Record<string, MigrationStep>> = {
  '0001-feeders': feeders,
  '0002-studies-and-proposals': studiesAndProposals,
  '0003-protections-and-history': protectionsAndHistory,
}

/**
 * Brings the tables up to date, all steps in one transaction.
 *
 * @param to last step to take; the newest when left out
 * @throws Error where a step fails or the database was written by a newer program.
 */
export async function migrate<Known>(
  db: Kysely<Known>,
  kind: DatabaseKind,
  to?: string,
): Promise<void> {
  const migrator = migratorOf(db, kind)
  const { error } =
    to === undefined ? await migrator.migrateToLatest() : await migrator.migrateTo(to)
  if (error === undefined) return
  const reason = error instanceof Error ? error.message : String(error)
  throw new Error(`The database could not be brought up to date: ${reason}`, { cause: error })
}

function migratorOf<Known>(db: Kysely<Known>, kind: DatabaseKind): Migrator {
  const steps = Object.entries(MIGRATIONS).map(([name, step]): [string, Migration] => [
    name,
    { up: (inside) => step.up(inside, kind) },
  ])
  return new Migrator({ db, provider: { getMigrations: async () => Object.fromEntries(steps) } })
}
