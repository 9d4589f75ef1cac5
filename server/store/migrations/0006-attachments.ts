import type { Kysely } from 'kysely'

export async function up(db: Kysely<unknown>): Promise<void> {
  await db.schema
    .createTable('attachments')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('feeder_id', 'text', (column) => column.notNull().references('feeders.id'))
    .addColumn('version', 'integer', (column) => column.notNull())
    .addColumn('attached_to', 'text', (column) => column.notNull())
    .addColumn('attached_to_id', 'text', (column) => column.notNull())
    .addColumn('file_name', 'text', (column) => column.notNull())
    .addColumn('note', 'text', (column) => column.notNull())
    .addColumn('media_type', 'text', (column) => column.notNull())
    .addColumn('size_bytes', 'integer', (column) => column.notNull())
    .addColumn('sha256', 'text', (column) => column.notNull())
    .addColumn('actor_id', 'text', (column) => column.notNull())
    .addColumn('actor_role', 'text', (column) => column.notNull())
    .addColumn('changed_at', 'text', (column) => column.notNull())
    .addColumn('deleted_at', 'text')
    .execute()
  await db.schema
    .createIndex('attachments_feeder')
    .on('attachments')
    .columns(['feeder_id', 'attached_to', 'attached_to_id'])
    .execute()
  await db.schema.createIndex('attachments_sha256').on('attachments').column('sha256').execute()
}
