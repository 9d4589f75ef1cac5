import type { Transaction } from 'kysely'
import type { WorkStore } from '../services/work-ports.ts'
import type { Database } from './database.ts'
import type { Tables } from './tables.ts'

type Listener = Parameters<WorkStore['onChange']>[0]

/** A transaction in which rows of the table of work change. */
export interface WorkWriting {
  readonly transaction: Transaction<Tables>
  /** To be called for each row that changes; listeners are told once the change is kept. */
  readonly changed: (workId: string, state: string) => void
}

export function workWriter(db: Database) {
  const listeners = new Set<Listener>()
  const changed: WorkWriting['changed'] = (workId, state) =>
    db.afterCommit(() => {
      for (const listener of listeners) listener(workId, state as Parameters<Listener>[1])
    })
  return {
    write: <Result>(act: (writing: WorkWriting) => Promise<Result>): Promise<Result> =>
      db.transaction((transaction) => act({ transaction, changed })),
    onChange: (listener: Listener) => {
      listeners.add(listener)
      return () => void listeners.delete(listener)
    },
  }
}
