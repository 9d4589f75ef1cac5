import { sql } from 'kysely'
import pg from 'pg'
import type { Database } from './database.ts'

/** Channel of the notices that the database sends by itself (migration 0009). */
const CHANNEL = 'crossarm_changes'

/** How often a file is asked whether another process wrote to it. */
const ASK_MS = 1000

/** A line that broke without a word is found out by asking. */
const PROBE_MS = 20_000

const FIRST_WAIT_MS = 200
const LONGEST_WAIT_MS = 10_000

interface Hearing {
  close(): Promise<void>
}

/**
 * Tells listeners of changes by any process once they are kept, and whenever some may have been
 * missed. Nothing is listened for before the first of them is there.
 *
 * @param databaseUrl left out for SQLite
 */
export function hearingOf(
  database: Database,
  databaseUrl: string | undefined,
  reportFault: (fault: unknown) => void,
) {
  const listeners = new Set<() => void>()
  const heard = () => {
    for (const listener of listeners) listener()
  }
  let hearing: Hearing | null = null
  return {
    onChange: (listener: () => void) => {
      listeners.add(listener)
      hearing ??=
        databaseUrl === undefined
          ? hearFile(database, heard, reportFault)
          : new Listener(databaseUrl, heard, reportFault)
      return () => {
        listeners.delete(listener)
      }
    },
    close: async () => {
      listeners.clear()
      await hearing?.close()
    },
  }
}

/**
 * What this process changes is told at once; for others the file is asked: the number changes when
 * another connection has written to it (SQLite, PRAGMA data_version).
 */
function hearFile(
  database: Database,
  heard: () => void,
  reportFault: (fault: unknown) => void,
): Hearing {
  const stopHearing = database.onChange(heard)
  let known: number | null = null
  let asking: Promise<void> = Promise.resolve()
  const ask = async () => {
    const { rows } = await sql<{ data_version: number }>`pragma data_version`.execute(
      database.query,
    )
    const version = rows[0]?.data_version ?? null
    if (known !== null && version !== known) heard()
    known = version
  }
  const timer = setInterval(() => {
    asking = ask().catch(reportFault)
  }, ASK_MS)
  timer.unref()
  return {
    close: () => {
      stopHearing()
      clearInterval(timer)
      return asking
    },
  }
}

/** Listens on a connection of its own, and gets a new one when that breaks (PostgreSQL, LISTEN). */
class Listener implements Hearing {
  readonly #url: string
  readonly #heard: () => void
  readonly #reportFault: (fault: unknown) => void
  #client: pg.Client | null = null
  #timer: NodeJS.Timeout | undefined
  #waitMs = FIRST_WAIT_MS
  #isClosed = false
  #connecting: Promise<void>

  constructor(url: string, heard: () => void, reportFault: (fault: unknown) => void) {
    this.#url = url
    this.#heard = heard
    this.#reportFault = reportFault
    this.#connecting = this.#connect()
  }

  async close(): Promise<void> {
    this.#isClosed = true
    clearTimeout(this.#timer)
    await this.#connecting
    await this.#client?.end().catch(() => undefined)
  }

  async #connect(): Promise<void> {
    const client = new pg.Client({
      connectionString: this.#url,
      application_name: 'crossarm listener',
      connectionTimeoutMillis: LONGEST_WAIT_MS,
      query_timeout: LONGEST_WAIT_MS,
      keepAlive: true,
    })
    const lost = once((fault: unknown) => this.#reconnect(client, fault))
    client.on('error', lost)
    client.on('end', () => lost(new Error('The connection that hears of changes was closed.')))
    client.on('notification', this.#heard)
    try {
      await client.connect()
      await client.query(`listen ${CHANNEL}`)
      this.#client = client
      this.#waitMs = FIRST_WAIT_MS
      this.#heard()
      this.#probeLater(client, lost)
    } catch (fault) {
      lost(fault)
    }
  }

  #probeLater(client: pg.Client, lost: (fault: unknown) => void): void {
    if (this.#isClosed || this.#client !== client) return
    this.#timer = setTimeout(() => {
      client.query('select 1').then(() => this.#probeLater(client, lost), lost)
    }, PROBE_MS)
    this.#timer.unref()
  }

  #reconnect(client: pg.Client, fault: unknown): void {
    if (this.#isClosed) return
    this.#reportFault(fault)
    this.#client = null
    clearTimeout(this.#timer)
    void client.end().catch(() => undefined)
    this.#timer = setTimeout(() => {
      this.#connecting = this.#connect()
    }, this.#waitMs)
    this.#timer.unref()
    this.#waitMs = Math.min(2 * this.#waitMs, LONGEST_WAIT_MS)
  }
}

/** A connection that breaks says so more than once. */
function once<Value>(act: (value: Value) => void): (value: Value) => void {
  let isDone = false
  return (value) => {
    if (isDone) return
    isDone = true
    act(value)
  }
}
