import { type Kysely, sql } from 'kysely'
import type { DatabaseKind } from '../database.ts'
import type { Filling, Sum } from './load-tables.ts'

/** Stands in the target of a move until all of it is there, and tells what is. */
const TABLE = 'unfinished_move'

interface MoveTables {
  readonly unfinished_move: {
    readonly table_name: string
    readonly rows: number
    readonly sha256: string
  }
}

/** @throws Error where a move into this database was begun and not finished */
export async function refuseUnfinishedMove<Known>(
  db: Kysely<Known>,
  kind: DatabaseKind,
): Promise<void> {
  if (kind === 'sqlite' || !(await isUnderWay(db))) return
  throw new Error(
    'A move into this database was not finished. Run the same `crossarm move` again: it goes on where it stopped.',
  )
}

export async function isUnderWay<Known>(db: Kysely<Known>): Promise<boolean> {
  const { rows } = await sql`select 1 where to_regclass(${TABLE}) is not null`.execute(db)
  return rows.length > 0
}

export async function beginMove({ transaction }: Filling): Promise<void> {
  await transaction.schema
    .createTable(TABLE)
    .addColumn('table_name', 'text', (column) => column.primaryKey())
    .addColumn('rows', 'integer', (column) => column.notNull())
    .addColumn('sha256', 'text', (column) => column.notNull())
    .execute()
}

export async function tablesMoved(filling: Filling): Promise<Map<string, Sum>> {
  const rows = await moveTables(filling).selectFrom(TABLE).selectAll().execute()
  return new Map(rows.map(({ table_name, ...sum }) => [table_name, sum]))
}

export async function noteMoved(filling: Filling, name: string, sum: Sum): Promise<void> {
  await moveTables(filling)
    .insertInto(TABLE)
    .values({ table_name: name, ...sum })
    .execute()
}

export async function endMove({ transaction }: Filling): Promise<void> {
  await transaction.schema.dropTable(TABLE).execute()
}

function moveTables({ transaction }: Filling): Kysely<MoveTables> {
  return transaction as unknown as Kysely<MoveTables>
}
