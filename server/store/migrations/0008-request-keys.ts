import type { Kysely } from 'kysely'

export async function up(db: Kysely<unknown>): Promise<void> {
  await db.schema
    .createTable('request_keys')
    .addColumn('asker_id', 'text', (column) => column.notNull())
    .addColumn('key', 'text', (column) => column.notNull())
    .addColumn('fingerprint', 'text', (column) => column.notNull())
    .addColumn('answer', 'text', (column) => column.notNull())
    .addColumn('kept_at', 'text', (column) => column.notNull())
    .addPrimaryKeyConstraint('request_keys_key', ['asker_id', 'key'])
    .execute()
  await db.schema.createIndex('request_keys_kept').on('request_keys').column('kept_at').execute()
}
