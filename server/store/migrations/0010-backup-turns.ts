import type { Kysely } from 'kysely'

/** When a backup was begun last, so that one of several servers makes it. */
export async function up(db: Kysely<unknown>): Promise<void> {
  await db.schema
    .createTable('backup_turns')
    .addColumn('name', 'text', (column) => column.primaryKey())
    .addColumn('taken_at', 'text', (column) => column.notNull())
    .execute()
}
