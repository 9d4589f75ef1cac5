import SqliteFile from 'better-sqlite3'
import pg from 'pg'
import type { DatabaseKind } from '../database.ts'
import { type Ask, type Row, readTableForms, selectInOrder, type TableForm } from './table-form.ts'

/** Rows that are held in memory at a time. */
const ROWS_AT_A_TIME = 200

/** One state of a database, whatever others write meanwhile. */
export interface Snapshot {
  readonly kind: DatabaseKind
  /** Each after those that it refers to. */
  readonly tables: readonly TableForm[]
  readonly ask: Ask
  /** Rows in the order of the key. */
  rows(table: TableForm): AsyncIterable<Row>
  close(): Promise<void>
}

/**
 * A snapshot of SQLite's file through a connection of its own.
 *
 * @param hold keeps everybody else from writing until it is closed
 */
export async function snapshotOfFile(file: string, hold = false): Promise<Snapshot> {
  const connection = new SqliteFile(file, { readonly: !hold, fileMustExist: true })
  connection.pragma('busy_timeout = 5000')
  const ask: Ask = async (statement) => connection.prepare<[], Row>(statement).all()
  try {
    connection.exec(hold ? 'begin immediate' : 'begin')
    const tables = await readTableForms(ask, 'sqlite')
    return {
      kind: 'sqlite',
      tables,
      ask,
      rows: (table) => rowsOfFile(connection, selectInOrder(table, 'sqlite')),
      close: async () => void connection.close(),
    }
  } catch (error) {
    connection.close()
    throw error
  }
}

async function* rowsOfFile(connection: SqliteFile.Database, statement: string) {
  for (const row of connection.prepare<[], Row>(statement).iterate()) yield row
}

/** A snapshot of a PostgreSQL database through a connection of its own. */
export async function snapshotOfServer(url: string): Promise<Snapshot> {
  const client = new pg.Client({ connectionString: url, application_name: 'crossarm backup' })
  // Told of again by the statement under way; without a listener it would end the process.
  client.on('error', () => undefined)
  await client.connect()
  const ask: Ask = async (statement) => (await client.query<Row>(statement)).rows
  try {
    await client.query('begin transaction isolation level repeatable read, read only')
    const tables = await readTableForms(ask, 'postgres')
    return {
      kind: 'postgres',
      tables,
      ask,
      rows: (table) => rowsInPortions(ask, selectInOrder(table, 'postgres')),
      close: () => client.end(),
    }
  } catch (error) {
    await client.end()
    throw error
  }
}

/** Rows of a statement in a transaction under way, without holding them all. */
export async function* rowsInPortions(ask: Ask, statement: string): AsyncGenerator<Row> {
  await ask(`declare portion no scroll cursor for ${statement}`)
  try {
    for (;;) {
      const rows = await ask(`fetch ${ROWS_AT_A_TIME} from portion`)
      if (rows.length === 0) return
      yield* rows
    }
  } finally {
    await ask('close portion')
  }
}
