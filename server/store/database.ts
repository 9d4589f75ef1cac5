import { AsyncLocalStorage } from 'node:async_hooks'
import type { Kysely, Transaction } from 'kysely'
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

  constructor(connections: Connections) {
    this.kind = connections.kind
    this.#connections = connections
  }

  /** For reading: sees what the transaction under way has written. */
  get query(): Kysely<Tables> {
    return this.#ambient.getStore()?.transaction ?? this.#connections.reader
  }

  /** For libraries that write by themselves. Not to be used inside a transaction: it would wait for its own end. */
  get plain(): Kysely<Tables> {
    return this.#connections.writer
  }

  /** Runs in the transaction under way, or in a new one that ends with the work. */
  async transaction<Result>(
    work: (transaction: Transaction<Tables>) => Promise<Result>,
  ): Promise<Result> {
    const under = this.#ambient.getStore()
    if (under) return work(under.transaction)
    const afterCommit: (() => void)[] = []
    const result = await this.#connections.writer.transaction().execute(async (transaction) => {
      await this.#connections.takeTurn(transaction)
      return this.#ambient.run({ transaction, afterCommit }, () => work(transaction))
    })
    for (const act of afterCommit) act()
    return result
  }

  /** Acts once what is under way is kept; at once where nothing is. Never after a rollback. */
  afterCommit(act: () => void): void {
    const under = this.#ambient.getStore()
    if (under) under.afterCommit.push(act)
    else act()
  }

  async close(): Promise<void> {
    const { reader, writer } = this.#connections
    await writer.destroy()
    if (reader !== writer) await reader.destroy()
  }
}
