import { type Kysely, sql } from 'kysely'
import type { DatabaseKind } from './database.ts'
import type { Tables } from './tables.ts'

/** What the database itself finds wrong with its pages and references, in words. */
export const CHECK_DATABASE: Readonly<
  Record<DatabaseKind, (db: Kysely<Tables>) => Promise<string[]>>
> = {
  sqlite: async (db) => [...(await pageFaultsOfFile(db)), ...(await strayRowsOfFile(db))],
  postgres: async (db) => [...(await pageFaultsOfServer(db)), ...(await strayRowsOfServer(db))],
}

async function pageFaultsOfFile(db: Kysely<Tables>): Promise<string[]> {
  const { rows } = await sql<{ integrity_check: string }>`pragma integrity_check`.execute(db)
  return rows.map((row) => row.integrity_check).filter((words) => words !== 'ok')
}

async function strayRowsOfFile(db: Kysely<Tables>): Promise<string[]> {
  const { rows } = await sql<{ table: string; parent: string }>`
    pragma foreign_key_check`.execute(db)
  return rows.map(({ table, parent }) => strayWords(table, parent, 1))
}

/** PostgreSQL counts pages whose checksum was wrong when it read them, where it keeps checksums. */
async function pageFaultsOfServer(db: Kysely<Tables>): Promise<string[]> {
  const { rows } = await sql<{ failures: number | null }>`
    select checksum_failures as failures from pg_stat_database
    where datname = current_database()`.execute(db)
  const failures = rows[0]?.failures ?? 0
  return failures === 0 ? [] : [`PostgreSQL read ${failures} pages with a wrong checksum.`]
}

interface Reference {
  readonly child: string
  readonly parent: string
  readonly columns: readonly string[]
  readonly parent_columns: readonly string[]
}

/** References hold by themselves, but not where rows were loaded with them switched off. */
async function strayRowsOfServer(db: Kysely<Tables>): Promise<string[]> {
  const { rows } = await sql<Reference>`
    select c.conrelid::regclass::text as child, c.confrelid::regclass::text as parent,
      array(select a.attname::text from unnest(c.conkey) with ordinality k(number, place)
        join pg_attribute a on a.attrelid = c.conrelid and a.attnum = k.number order by place)
        as columns,
      array(select a.attname::text from unnest(c.confkey) with ordinality k(number, place)
        join pg_attribute a on a.attrelid = c.confrelid and a.attnum = k.number order by place)
        as parent_columns
    from pg_constraint c where c.contype = 'f' and c.connamespace = current_schema()::regnamespace
    order by child, parent`.execute(db)
  const faults: string[] = []
  for (const reference of rows) {
    const count = await countStrayRows(db, reference)
    if (count > 0) faults.push(strayWords(reference.child, reference.parent, count))
  }
  return faults
}

async function countStrayRows(db: Kysely<Tables>, reference: Reference): Promise<number> {
  const { child, parent, columns, parent_columns } = reference
  const pairs = columns.map((column, index) => {
    const target = parent_columns[index] ?? column
    return sql`${sql.ref(`p.${target}`)} = ${sql.ref(`c.${column}`)}`
  })
  const isSet = columns.map((column) => sql`${sql.ref(`c.${column}`)} is not null`)
  const { rows } = await sql<{ count: number }>`
    select count(*) as count from ${sql.table(child)} c where ${sql.join(isSet, sql` and `)}
      and not exists (select 1 from ${sql.table(parent)} p where ${sql.join(pairs, sql` and `)})
    `.execute(db)
  return Number(rows[0]?.count ?? 0)
}

function strayWords(table: string, parent: string, count: number): string {
  const what = count === 1 ? 'A row' : `${count} rows`
  return `${what} of ${table} refer${count === 1 ? 's' : ''} to what is not in ${parent}.`
}
