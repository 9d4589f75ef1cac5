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

/** Takes the file for writing from the first statement on: a transaction that starts reading cannot always go on to write. */
class WritingDriver extends SqliteDriver {
  override async beginTransaction(connection: DatabaseConnection): Promise<void> {
    await connection.executeQuery(CompiledQuery.raw('begin immediate'))
  }
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
