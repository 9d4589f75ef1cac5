import { mkdir, writeFile } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import { openSnapshot } from '../../server/store/archive/back-up.ts'
import { lineOf } from '../../server/store/archive/cell.ts'
import { fillTable, tableFormsIn } from '../../server/store/archive/load-tables.ts'
import { ATTACHMENTS_FOLDER, attachmentPath } from '../../server/store/attachment-files.ts'
import { Database } from '../../server/store/database.ts'
import { MIGRATIONS, migrate } from '../../server/store/migrate.ts'
import { DATABASE_FILE, type Place } from '../../server/store/place.ts'
import { openPostgres } from '../../server/store/postgres.ts'
import { openSqlite } from '../../server/store/sqlite.ts'
import { ATTACHED, ATTACHED_SHA256, rowsOfVersion } from './rows-of-version.ts'

export const STEPS = Object.keys(MIGRATIONS)
export const NEWEST = STEPS.at(-1) ?? ''

/** The database of a place as it stands, without bringing it up to date. */
export async function withDatabaseOf<Result>(
  { dataFolder, databaseUrl }: Place,
  work: (database: Database) => Promise<Result>,
): Promise<Result> {
  const database = new Database(
    databaseUrl === undefined
      ? openSqlite(join(dataFolder, DATABASE_FILE))
      : openPostgres(databaseUrl, () => undefined),
  )
  try {
    return await work(database)
  } finally {
    await database.close()
  }
}

/** Makes a database as the version with that last step left it, with rows in its tables. */
export async function makeDatabaseOf(step: string, place: Place): Promise<void> {
  await withDatabaseOf(place, async (database) => {
    await migrate(database.plain, database.kind, step)
    const rows = rowsOfVersion(step)
    await database.transaction(async (transaction) => {
      const filling = { transaction, kind: database.kind }
      for (const form of await tableFormsIn(filling)) {
        const given = rows.get(form.name)
        if (given) await fillTable(filling, form, inOrder(given, form.key))
      }
    })
  })
  if (rowsOfVersion(step).has('attachments')) await attach(place.dataFolder)
}

async function attach(dataFolder: string): Promise<void> {
  const file = attachmentPath(join(dataFolder, ATTACHMENTS_FOLDER), ATTACHED_SHA256)
  await mkdir(dirname(file), { recursive: true })
  await writeFile(file, ATTACHED)
}

/** Every line of every table but those of the steps, by table. */
export async function everything(of: Place): Promise<Record<string, string[]>> {
  const snapshot = await openSnapshot(of)
  const lines: Record<string, string[]> = {}
  for (const table of snapshot.tables.filter(({ name }) => !name.startsWith('kysely_'))) {
    const rows: string[] = []
    for await (const row of snapshot.rows(table)) rows.push(lineOf(row, table))
    lines[table.name] = rows
  }
  await snapshot.close()
  return lines
}

/** By the bytes of the key, as a database gives them. */
async function* inOrder(
  rows: readonly Readonly<Record<string, unknown>>[],
  key: readonly string[],
) {
  const bytes = (row: Readonly<Record<string, unknown>>) =>
    Buffer.from(key.map((column) => String(row[column])).join('\0'))
  yield* rows.toSorted((left, right) => Buffer.compare(bytes(left), bytes(right)))
}
