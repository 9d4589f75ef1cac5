import type { RequestKeyStore } from '../services/request-key-ports.ts'
import type { Database } from './database.ts'

export function requestKeyRepository(db: Database): RequestKeyStore {
  return {
    find: async (askerId, key) => {
      const row = await db.query
        .selectFrom('request_keys')
        .select(['fingerprint', 'answer'])
        .where('asker_id', '=', askerId)
        .where('key', '=', key)
        .executeTakeFirst()
      return row ? { fingerprint: row.fingerprint, answer: JSON.parse(row.answer) } : null
    },
    keep: async (askerId, key, { fingerprint, answer }, at) => {
      await db.transaction((transaction) =>
        transaction
          .insertInto('request_keys')
          .values({
            asker_id: askerId,
            key,
            fingerprint,
            answer: JSON.stringify(answer),
            kept_at: at,
          })
          .execute(),
      )
    },
    forget: async (before) => {
      await db.transaction((transaction) =>
        transaction.deleteFrom('request_keys').where('kept_at', '<', before).execute(),
      )
    },
  }
}
