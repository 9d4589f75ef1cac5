import { AsyncLocalStorage } from 'node:async_hooks'
import { type Kysely, sql, type Transaction } from 'kysely'
import type { HistoryEntry } from '../services/ports.ts'
import type { Tables } from './tables.ts'

export type DatabaseKind = 'sqlite' | 'postgres'

/** What each kind of database brings. */
export interface Connections {
  readonly kind: DatabaseKind
  readonly writer: Kysely<Tables>
  /** May be the writer itself. Never written through. */
  readonly reader: Kysely<Tables>
  /** First statement of every transaction, so that only one writes at a time. */
  readonly takeTurn: (transaction: Transaction<Tables>) => Promise<void>
}

/** Told of an entry of the history once it is kept. */
export type ChangeListener = (entry: HistoryEntry) => void

/** Which database a transaction is of. */
const DATABASES = new WeakMap<Transaction<Tables>, Database>()

interface Ambient {
  readonly transaction: Transaction<Tables>
  readonly afterCommit: (() => void)[]
}

/**
 * One database, and the transaction that the present chain of calls runs in, if any. What is asked
 * or written inside of it joins it, so that a request can be one transaction whatever it touches.
 * Changes are made one at a time on either kind of database: the history is one chain.
 */
export class Database {
  readonly kind: DatabaseKind
  readonly #connections: Connections
  readonly #ambient = new AsyncLocalStorage<Ambient>()
  #kept = 0
  #undone = 0
  readonly #listeners = new Set<ChangeListener>()

  constructor(connections: Connections) {
    this.kind = connections.kind
    this.#connections = connections
  }

  /** @throws Error for a transaction that was not begun by `transaction`, and so waited for no turn. */
  static of(transaction: Transaction<Tables>): Database {
    const database = DATABASES.get(transaction)
    if (database) return database
    throw new Error('Expected a transaction of Database.transaction, got another one.')
  }

  /** For reading: sees what the transaction under way has written. */
  get query(): Kysely<Tables> {
    return this.#ambient.getStore()?.transaction ?? this.#connections.reader
  }

  /** True where the present chain of calls runs in a transaction. */
  get isInTransaction(): boolean {
    return this.#ambient.getStore() !== undefined
  }

  /** For libraries that write by themselves. Not to be used inside a transaction: it would wait for its own end. */
  get plain(): Kysely<Tables> {
    return this.#connections.writer
  }

  /** Transactions of this process since its start, by how they ended. */
  get writes(): { readonly kept: number; readonly undone: number } {
    return { kept: this.#kept, undone: this.#undone }
  }

  /** Rejects where the database does not answer. */
  async ask(): Promise<void> {
    await sql`select 1`.execute(this.#connections.reader)
  }

  /** Runs in the transaction under way, or in a new one that ends with the work. */
  async transaction<Result>(
    work: (transaction: Transaction<Tables>) => Promise<Result>,
  ): Promise<Result> {
    const under = this.#ambient.getStore()
    if (under) return work(under.transaction)
    const afterCommit: (() => void)[] = []
    const begun = this.#connections.writer.transaction().execute(async (transaction) => {
      await this.#connections.takeTurn(transaction)
      DATABASES.set(transaction, this)
      return this.#ambient.run({ transaction, afterCommit }, () => work(transaction))
    })
    const result = await begun.catch((fault: unknown) => {
      this.#undone++
      throw fault
    })
    this.#kept++
    for (const act of afterCommit) act()
    return result
  }

  /** Acts once what is under way is kept; at once where nothing is. Never after a rollback. */
  afterCommit(act: () => void): void {
    const under = this.#ambient.getStore()
    if (under) under.afterCommit.push(act)
    else act()
  }

  /** Listens to the changes that this process makes, each once it is kept. Gives how to stop. */
  onChange(listener: ChangeListener): () => void {
    this.#listeners.add(listener)
    return () => this.#listeners.delete(listener)
  }

  /** Called by the history for each entry that it writes. */
  announce(entry: HistoryEntry): void {
    this.afterCommit(() => {
      for (const listener of this.#listeners) listener(entry)
    })
  }

  async close(): Promise<void> {
    const { reader, writer } = this.#connections
    await writer.destroy()
    if (reader !== writer) await reader.destroy()
  }
}
