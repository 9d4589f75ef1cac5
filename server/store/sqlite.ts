import SqliteFile from 'better-sqlite3'
import { Kysely, SqliteDialect } from 'kysely'
import type { Tables } from './tables.ts'

/** Milliseconds that a write waits for another process to let go of the file. */
const BUSY_TIMEOUT_MS = 5000

/**
 * Set on every connection. `synchronous` is not kept in the file: a file that is opened again
 * may fall back to NORMAL, and then the last commits could be lost with the power.
 */
const PRAGMAS = [
  'journal_mode = WAL',
  'synchronous = FULL',
  'foreign_keys = ON',
  `busy_timeout = ${BUSY_TIMEOUT_MS}`,
]

/** Opens or makes the database file at the first query; the folder must be there. */
export function openSqlite(file: string): Kysely<Tables> {
  return new Kysely<Tables>({ dialect: new SqliteDialect({ database: () => connect(file) }) })
}

async function connect(file: string): Promise<SqliteFile.Database> {
  const connection = new SqliteFile(file)
  for (const pragma of PRAGMAS) connection.pragma(pragma)
  return connection
}
