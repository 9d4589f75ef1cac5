import type { Transaction } from 'kysely'
import type { KnownTries, StoredTries, TryStore } from '../services/people-ports.ts'
import type { Database } from './database.ts'
import type { Tables } from './tables.ts'

/** Tries to sign in; in the database, so that several servers count together. */
export function tryRepository(db: Database): TryStore {
  return {
    update: (keys, at, next) =>
      db.transaction(async (transaction) => {
        await transaction.deleteFrom('sign_in_tries').where('forget_at', '<=', at).execute()
        const known = await find(transaction, keys)
        for (const [key, tries] of next(known)) await keep(transaction, key, tries)
      }),
  }
}

async function find(
  transaction: Transaction<Tables>,
  keys: readonly string[],
): Promise<KnownTries> {
  const rows = await transaction
    .selectFrom('sign_in_tries')
    .selectAll()
    .where('key', 'in', [...keys])
    .execute()
  return new Map(
    rows.map(({ key, failures, open_at, forget_at }): [string, StoredTries] => [
      key,
      { failures, openAt: open_at, forgetAt: forget_at },
    ]),
  )
}

async function keep(
  transaction: Transaction<Tables>,
  key: string,
  tries: StoredTries | null,
): Promise<void> {
  if (tries === null) {
    await transaction.deleteFrom('sign_in_tries').where('key', '=', key).execute()
    return
  }
  const row = { failures: tries.failures, open_at: tries.openAt, forget_at: tries.forgetAt }
  await transaction
    .insertInto('sign_in_tries')
    .values({ key, ...row })
    .onConflict((conflict) => conflict.column('key').doUpdateSet(row))
    .execute()
}
