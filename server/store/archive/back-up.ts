import { existsSync } from 'node:fs'
import { stat } from 'node:fs/promises'
import { join } from 'node:path'
import { ATTACHMENTS_FOLDER } from '../attachment-files.ts'
import { DATABASE_FILE, type Place } from '../place.ts'
import { lastStep } from './archive-facts.ts'
import { type Snapshot, snapshotOfFile, snapshotOfServer } from './snapshot.ts'
import { type OnProgress, type WrittenArchive, writeArchive } from './write-archive.ts'

export interface BackupOptions {
  readonly place: Place
  /** A folder gets an archive named after the moment; a file that is there already is refused. */
  readonly to: string
  /** Of the program. */
  readonly version: string
  /** ISO 8601, UTC. */
  readonly takenAt: string
  readonly onProgress?: OnProgress
}

/**
 * Writes an archive of the record as it is at this moment, while others go on writing.
 *
 * @throws Error where there is no database, or the archive cannot be written
 */
export async function backUp(options: BackupOptions): Promise<WrittenArchive> {
  const { place, to, version, takenAt, onProgress } = options
  const file = await archiveFile(to, takenAt)
  const snapshot = await openSnapshot(place)
  try {
    const lastMigration = await lastStep(snapshot)
    const attachmentsFolder = join(place.dataFolder, ATTACHMENTS_FOLDER)
    const source = { snapshot, attachmentsFolder, version, lastMigration, takenAt }
    return await writeArchive(source, file, onProgress)
  } finally {
    await snapshot.close()
  }
}

/** Name of an archive, by which the newest sorts last. */
export function archiveName(takenAt: string): string {
  return `crossarm-${nameOfMoment(takenAt)}.tar.gz`
}

export function nameOfMoment(at: string): string {
  return `${at.slice(0, 19).replaceAll(':', '')}Z`
}

/** @throws Error where there is no database */
export async function openSnapshot({ dataFolder, databaseUrl }: Place): Promise<Snapshot> {
  if (databaseUrl !== undefined) return snapshotOfServer(databaseUrl)
  const file = join(dataFolder, DATABASE_FILE)
  if (!existsSync(file)) throw new Error(`There is no database ${file}.`)
  return snapshotOfFile(file)
}

async function archiveFile(to: string, takenAt: string): Promise<string> {
  const found = await stat(to).catch(() => null)
  if (found?.isDirectory() || to.endsWith('/'))
    return archiveFile(join(to, archiveName(takenAt)), takenAt)
  if (found) throw new Error(`${to} is there already. Name another file, or a folder.`)
  return to
}
