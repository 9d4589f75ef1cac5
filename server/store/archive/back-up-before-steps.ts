import { randomUUID } from 'node:crypto'
import { join } from 'node:path'
import type { Kysely } from 'kysely'
import { stepsAhead, stepsTaken } from '../migrate.ts'
import type { Place } from '../place.ts'
import type { Tables } from '../tables.ts'
import { nameOfMoment, openSnapshot } from './back-up.ts'
import { writeArchive } from './write-archive.ts'

export interface BeforeSteps {
  /** Folder of backups. */
  readonly folder: string
  /** Of the program. */
  readonly version: string
}

/**
 * Writes an archive of a database that is about to take steps; of an empty one there is nothing to
 * keep. Attached files are left where they are, as no step touches them. Gives the file.
 *
 * @throws Error where it cannot be written: then no step may be taken
 */
export async function backUpBeforeSteps(
  db: Kysely<Tables>,
  place: Place,
  { folder, version }: BeforeSteps,
): Promise<string | null> {
  const taken = await stepsTaken(db, place.databaseUrl === undefined ? 'sqlite' : 'postgres')
  const [next] = stepsAhead(taken)
  const lastMigration = taken.at(-1)
  if (next === undefined || lastMigration === undefined) return null
  const takenAt = new Date().toISOString()
  // Several servers may start at the same second.
  const ownPart = randomUUID().slice(0, 8)
  const file = join(folder, `before-${next}-${nameOfMoment(takenAt)}-${ownPart}.tar.gz`)
  const snapshot = await openSnapshot(place)
  try {
    await writeArchive({ snapshot, attachmentsFolder: null, version, lastMigration, takenAt }, file)
    return file
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error)
    throw new Error(
      `The database has to be brought up to date, and the backup before that failed: ${reason}`,
      { cause: error },
    )
  } finally {
    await snapshot.close()
  }
}
