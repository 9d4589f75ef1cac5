import { setTimeout as sleep } from 'node:timers/promises'
import SqliteFile from 'better-sqlite3'
import {
  CompiledQuery,
  type DatabaseConnection,
  type Driver,
  Kysely,
  SqliteDialect,
  SqliteDriver,
} from 'kysely'
import type { Connections } from './database.ts'
import type { Tables } from './tables.ts'

/** Milliseconds that a write waits for another process to let go of the file. */
const BUSY_TIMEOUT_MS = 5000
const BETWEEN_TRIES_MS = 20

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

/**
 * Takes the file for writing from the first statement on: a transaction that starts reading cannot
 * always go on to write. Where another process has the file, the driver would hold up this whole
 * process while it waits; so it is asked again and again instead, and others are served meanwhile.
 */
class WritingDriver extends SqliteDriver {
  override async beginTransaction(connection: DatabaseConnection): Promise<void> {
    const until = Date.now() + BUSY_TIMEOUT_MS
    await run(connection, 'pragma busy_timeout = 0')
    try {
      while (!(await isBegun(connection, Date.now() >= until))) await sleep(BETWEEN_TRIES_MS)
    } finally {
      await run(connection, `pragma busy_timeout = ${BUSY_TIMEOUT_MS}`)
    }
  }

  /** A full or failing disk has undone the transaction already; what it said of that is to be heard. */
  override async rollbackTransaction(connection: DatabaseConnection): Promise<void> {
    try {
      await super.rollbackTransaction(connection)
    } catch (error) {
      if (!(error instanceof Error && error.message.includes('no transaction is active')))
        throw error
    }
  }
}

/** @throws the driver's error where it is none of being busy, or this is the last try */
async function isBegun(connection: DatabaseConnection, isLastTry: boolean): Promise<boolean> {
  try {
    await run(connection, 'begin immediate')
    return true
  } catch (error) {
    const isBusy = error instanceof SqliteFile.SqliteError && error.code === 'SQLITE_BUSY'
    if (!isBusy || isLastTry) throw error
    return false
  }
}

async function run(connection: DatabaseConnection, statement: string): Promise<void> {
  await connection.executeQuery(CompiledQuery.raw(statement))
}

class WritingDialect extends SqliteDialect {
  readonly #connect: () => Promise<SqliteFile.Database>

  constructor(connect: () => Promise<SqliteFile.Database>) {
    super({ database: connect })
    this.#connect = connect
  }

  override createDriver(): Driver {
    return new WritingDriver({ database: this.#connect })
  }
}

/**
 * Opens or makes the database file at the first query; the folder must be there. Reading has a
 * connection of its own, so that it does not wait for a transaction.
 */
export function openSqlite(file: string): Connections {
  const open = () => connect(file)
  return {
    kind: 'sqlite',
    writer: new Kysely<Tables>({ dialect: new WritingDialect(open) }),
    reader: new Kysely<Tables>({ dialect: new SqliteDialect({ database: open }) }),
    takeTurn: async () => undefined,
  }
}

async function connect(file: string): Promise<SqliteFile.Database> {
  const connection = new SqliteFile(file)
  for (const pragma of PRAGMAS) connection.pragma(pragma)
  return connection
}
