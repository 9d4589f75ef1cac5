import { type Kysely, sql } from 'kysely'

export async function up(db: Kysely<unknown>): Promise<void> {
  await db.schema
    .createTable('protections')
    .addColumn('feeder_id', 'text', (column) => column.notNull().references('feeders.id'))
    .addColumn('id', 'text', (column) => column.notNull())
    .addColumn('version', 'integer', (column) => column.notNull())
    .addColumn('pole', 'text', (column) => column.notNull())
    .addColumn('kind', 'text', (column) => column.notNull())
    .addColumn('what', 'text', (column) => column.notNull())
    .addColumn('state', 'text', (column) => column.notNull())
    .addColumn('state_date', 'text', (column) => column.notNull())
    .addColumn('note', 'text')
    .addColumn('actor_id', 'text', (column) => column.notNull())
    .addColumn('actor_role', 'text', (column) => column.notNull())
    .addColumn('changed_at', 'text', (column) => column.notNull())
    .addColumn('deleted_at', 'text')
    .addPrimaryKeyConstraint('protections_key', ['feeder_id', 'id'])
    .execute()
  await db.schema
    .createTable('history')
    .addColumn('subject', 'text', (column) => column.notNull())
    .addColumn('feeder_id', 'text', (column) => column.notNull())
    .addColumn('subject_id', 'text', (column) => column.notNull())
    .addColumn('version', 'integer', (column) => column.notNull())
    .addColumn('at', 'text', (column) => column.notNull())
    .addColumn('actor_id', 'text', (column) => column.notNull())
    .addColumn('actor_role', 'text', (column) => column.notNull())
    .addColumn('before', 'text')
    .addColumn('after', 'text', (column) => column.notNull())
    .addPrimaryKeyConstraint('history_key', ['subject', 'feeder_id', 'subject_id', 'version'])
    .execute()
  await refuse(db, 'update')
  await refuse(db, 'delete')
}

/** Written as SQLite writes triggers; another database needs its own words for the same rule. */
async function refuse(db: Kysely<unknown>, verb: 'update' | 'delete'): Promise<void> {
  await sql
    .raw(
      `create trigger history_no_${verb} before ${verb} on history
       begin select raise(abort, 'history is only added to'); end`,
    )
    .execute(db)
}
