import { existsSync } from 'node:fs'
import { copyFile, mkdir, mkdtemp, readdir, rename, rm } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import { ATTACHMENTS_FOLDER, attachmentPath } from '../attachment-files.ts'
import { type Connections, Database } from '../database.ts'
import { MIGRATIONS, migrate } from '../migrate.ts'
import { DATABASE_FILE, type Place } from '../place.ts'
import { openPostgres } from '../postgres.ts'
import { openSqlite } from '../sqlite.ts'
import { checkHistory } from './check-history.ts'
import { askIn, type Filling, fillTable, tableFormsIn } from './load-tables.ts'
import type { Manifest } from './manifest.ts'
import { type TakenOut, takeOutArchive } from './read-archive.ts'
import { rowsOfLines } from './rows-of-lines.ts'
import { syncPath } from './safe-file.ts'
import { quoted } from './table-form.ts'
import type { OnProgress } from './write-archive.ts'

export interface RestoreOptions {
  readonly file: string
  /** Where the record is to be; nothing may be there yet. */
  readonly place: Place
  readonly onProgress?: OnProgress
}

/**
 * Puts an archive into an empty place. It is taken out and verified first; the tables are filled,
 * read back and brought up to date in one transaction, and stand there whole or not at all.
 *
 * @throws Error saying what is wrong with the archive or the place; nothing was put there then
 */
export async function restore({ file, place, onProgress }: RestoreOptions): Promise<Manifest> {
  if (!existsSync(file)) throw new Error(`There is no archive ${file}.`)
  const isNewFolder = !existsSync(place.dataFolder)
  await refuseUsed(place)
  await mkdir(place.dataFolder, { recursive: true })
  const workFolder = await mkdtemp(join(place.dataFolder, WORK_FOLDER))
  try {
    const taken = await takeOutArchive(file, workFolder)
    refuseNewer(taken.manifest)
    if (place.databaseUrl === undefined) await restoreFile(taken, place, workFolder, onProgress)
    else await restoreServer(taken, place.dataFolder, place.databaseUrl, onProgress)
    return taken.manifest
  } catch (error) {
    if (isNewFolder) await rm(place.dataFolder, { recursive: true, force: true })
    throw error
  } finally {
    await rm(workFolder, { recursive: true, force: true })
  }
}

/** Begins the name of the folder in which the record is put together. */
const WORK_FOLDER = '.restoring-'

async function refuseUsed({ dataFolder, databaseUrl }: Place): Promise<void> {
  if (databaseUrl !== undefined) return
  const names = existsSync(dataFolder) ? await readdir(dataFolder) : []
  const used = names.find((name) => !name.startsWith(WORK_FOLDER))
  if (used === undefined) return
  throw new Error(
    `The folder ${dataFolder} is not empty: it holds ${used}. Restore into a new folder, look at it, and only then put it in place of the other.`,
  )
}

function refuseNewer({ lastMigration, version }: Manifest): void {
  if (lastMigration in MIGRATIONS) return
  throw new Error(
    `A newer version of Crossarm (${version}) wrote this archive: it has the step ${lastMigration}. Use that version or a later one.`,
  )
}

async function restoreFile(
  taken: TakenOut,
  { dataFolder }: Place,
  workFolder: string,
  onProgress: OnProgress | undefined,
): Promise<void> {
  const file = join(workFolder, DATABASE_FILE)
  await withDatabase(openSqlite(file), (database) => fill(database, taken, onProgress))
  const attachments = join(workFolder, 'placed')
  await placeAttachments(taken, attachments)
  await syncPath(file)
  if (existsSync(attachments)) await rename(attachments, join(dataFolder, ATTACHMENTS_FOLDER))
  await rename(file, join(dataFolder, DATABASE_FILE))
  await syncPath(dataFolder)
}

async function restoreServer(
  taken: TakenOut,
  dataFolder: string,
  url: string,
  onProgress: OnProgress | undefined,
): Promise<void> {
  await withDatabase(
    openPostgres(url, () => undefined),
    (database) =>
      fill(database, taken, onProgress, () =>
        placeAttachments(taken, join(dataFolder, ATTACHMENTS_FOLDER)),
      ),
  )
}

async function withDatabase(
  connections: Connections,
  work: (database: Database) => Promise<void>,
): Promise<void> {
  const database = new Database(connections)
  try {
    await work(database)
  } finally {
    await database.close()
  }
}

/** @param beforeCommit what must be there before the tables may speak of it */
function fill(
  database: Database,
  { manifest, tableFile }: TakenOut,
  onProgress: OnProgress = () => undefined,
  beforeCommit: () => Promise<void> = async () => undefined,
): Promise<void> {
  return database.transaction(async (transaction) => {
    const filling: Filling = { transaction, kind: database.kind }
    await refuseFilled(filling)
    await migrate(transaction, database.kind, manifest.lastMigration)
    const forms = new Map((await tableFormsIn(filling)).map((form) => [form.name, form]))
    for (const [done, { name, rows }] of manifest.tables.entries()) {
      onProgress(done, manifest.tables.length, `Table ${name}`)
      const form = forms.get(name)
      if (!form) throw new Error(`The archive has a table ${name}, which this version never had.`)
      const found = await fillTable(filling, form, rowsOfLines(tableFile(name)))
      if (found.rows !== rows) throw new Error(`Table ${name} got ${found.rows} rows of ${rows}.`)
    }
    await migrate(transaction, database.kind)
    await checkHistory(database, manifest.historyHead)
    await beforeCommit()
  })
}

/** @throws Error where the database is not empty */
export async function refuseFilled(filling: Filling): Promise<void> {
  const [first] = await tableFormsIn(filling)
  if (!first) return
  const rows = await askIn(filling)(`select count(*) as rows from ${quoted(first.name)}`)
  throw new Error(
    `The database is not empty: it has a table ${first.name} with ${rows[0]?.rows} rows. Name a new, empty database.`,
  )
}

async function placeAttachments(
  { manifest, attachmentFile }: TakenOut,
  folder: string,
): Promise<void> {
  for (const { sha256 } of manifest.attachments ?? []) {
    const file = attachmentPath(folder, sha256)
    await mkdir(dirname(file), { recursive: true })
    await moveFile(attachmentFile(sha256), file)
    await syncPath(dirname(file))
  }
}

/** The folder of attached files may lie on another disk. */
async function moveFile(from: string, to: string): Promise<void> {
  try {
    await rename(from, to)
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EXDEV') throw error
    await copyFile(from, to)
    await syncPath(to)
  }
}
