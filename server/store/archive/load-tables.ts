import { createHash } from 'node:crypto'
import { type Kysely, sql, type Transaction } from 'kysely'
import type { DatabaseKind } from '../database.ts'
import type { Tables } from '../tables.ts'
import { type Cell, lineOf, storedForm } from './cell.ts'
import { rowsInPortions } from './snapshot.ts'
import {
  type Ask,
  keyOrder,
  quoted,
  type Row,
  readTableForms,
  selectInOrder,
  type TableForm,
  textLiteral,
} from './table-form.ts'

/** SQLite takes 32,766 values in a statement (sqlite.org/limits.html), PostgreSQL 65,535. */
const MOST_VALUES = 30_000
const MOST_ROWS = 200
/** A feeder is one row of some megabytes, so rows are counted by their size too. */
const MOST_CHARACTERS = 8 * 1024 * 1024

type AnyTables = Record<string, Record<string, unknown>>

/** Count and hash of a table's rows, in the forms of the table that they were put into. */
export interface Sum {
  readonly rows: number
  readonly sha256: string
}

/** What is being filled, inside of a transaction. */
export interface Filling {
  readonly transaction: Transaction<Tables>
  readonly kind: DatabaseKind
}

export function askIn({ transaction }: Filling): Ask {
  return async (statement) => (await sql.raw<Row>(statement).execute(transaction)).rows
}

export function tableFormsIn(filling: Filling): Promise<TableForm[]> {
  return readTableForms(askIn(filling), filling.kind)
}

/**
 * Fills a table that is empty, reads it back, and holds what is there against what was put in.
 *
 * @param rows as a database or a line of an archive gives them, in the order of the key
 * @throws Error naming the table where a row cannot be put in or comes back another
 */
export async function fillTable(
  filling: Filling,
  form: TableForm,
  rows: AsyncIterable<Row>,
): Promise<Sum> {
  const putIn = await insertAll(filling, form, rows)
  const found = await sumOf(readBack(filling, form), form)
  if (putIn.rows === found.rows && putIn.sha256 === found.sha256) return found
  throw new Error(
    `Table ${form.name} came back other than it was put in: ${found.rows} rows of ${putIn.rows}.`,
  )
}

/** Count and hash of rows as lines in the forms of a table. */
export async function sumOf(rows: AsyncIterable<Row>, form: TableForm): Promise<Sum> {
  const hash = createHash('sha256')
  let count = 0
  for await (const row of rows) {
    hash.update(`${lineOf(row, form)}\n`)
    count++
  }
  return { rows: count, sha256: hash.digest('hex') }
}

async function insertAll(
  filling: Filling,
  form: TableForm,
  rows: AsyncIterable<Row>,
): Promise<Sum> {
  const hash = createHash('sha256')
  const mostRows = Math.min(MOST_ROWS, Math.floor(MOST_VALUES / form.columns.length))
  let count = 0
  let characters = 0
  let portion: string[] = []
  const putIn = async () => {
    await insert(filling, form, portion)
    portion = []
    characters = 0
  }
  await letReferToItself(filling, form)
  for await (const row of rows) {
    const line = lineOf(row, form)
    hash.update(`${line}\n`)
    count++
    characters += line.length
    portion.push(line)
    if (portion.length >= mostRows || characters >= MOST_CHARACTERS) await putIn()
  }
  await putIn()
  await settleReferences(filling, form)
  return { rows: count, sha256: hash.digest('hex') }
}

async function insert(
  { transaction, kind }: Filling,
  { name, columns }: TableForm,
  lines: readonly string[],
): Promise<void> {
  if (lines.length === 0) return
  const values = lines.map((line) => {
    const cells = JSON.parse(line) as Record<string, Cell>
    return Object.fromEntries(
      columns.map((column) => [
        column.name,
        storedForm(cells[column.name] ?? null, column.type, kind),
      ]),
    )
  })
  try {
    await (transaction as unknown as Kysely<AnyTables>).insertInto(name).values(values).execute()
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error)
    throw new Error(`Table ${name} cannot be filled: ${reason}`, { cause: error })
  }
}

export function readBack(filling: Filling, form: TableForm): AsyncIterable<Row> {
  const { transaction, kind } = filling
  if (kind === 'postgres') return rowsInPortions(askIn(filling), selectInOrder(form, kind))
  return (transaction as unknown as Kysely<AnyTables>)
    .selectFrom(form.name)
    .selectAll()
    .orderBy(sql.raw(keyOrder(form, kind)))
    .stream()
}

/** A table may name rows of itself that come later; they are looked for when all are in. */
async function letReferToItself(filling: Filling, form: TableForm): Promise<void> {
  if (!form.refersTo.includes(form.name)) return
  if (filling.kind === 'sqlite') {
    await askIn(filling)('pragma defer_foreign_keys = on')
    return
  }
  for (const name of await referencesToItself(filling, form)) {
    await alterReference(filling, form, name, 'deferrable initially deferred')
  }
}

async function settleReferences(filling: Filling, form: TableForm): Promise<void> {
  if (!form.refersTo.includes(form.name) || filling.kind === 'sqlite') return
  await askIn(filling)('set constraints all immediate')
  for (const name of await referencesToItself(filling, form)) {
    await alterReference(filling, form, name, 'not deferrable')
  }
}

async function referencesToItself(filling: Filling, form: TableForm): Promise<string[]> {
  const rows = await askIn(filling)(`select conname as name from pg_constraint
    where contype = 'f' and conrelid = confrelid
    and conrelid = quote_ident(${textLiteral(form.name)})::regclass`)
  return rows.map(({ name }) => String(name))
}

async function alterReference(
  filling: Filling,
  form: TableForm,
  name: string,
  how: string,
): Promise<void> {
  await askIn(filling)(`alter table ${quoted(form.name)} alter constraint ${quoted(name)} ${how}`)
}
