import { type Kysely, sql } from 'kysely'
import type { DatabaseKind } from '../database.ts'

export async function up(db: Kysely<unknown>, kind: DatabaseKind): Promise<void> {
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
  for (const statement of ADD_ONLY[kind]) await sql.raw(statement).execute(db)
}

/** Each kind of database has its own words for the rule that history is only added to. */
const ADD_ONLY: Record<DatabaseKind, readonly string[]> = {
  sqlite: (['update', 'delete'] as const).map(
    (verb) =>
      `create trigger history_no_${verb} before ${verb} on history
       begin select raise(abort, 'history is only added to'); end`,
  ),
  postgres: [
    `create function history_is_only_added_to() returns trigger language plpgsql as
     $$ begin raise exception 'history is only added to'; end $$`,
    `create trigger history_no_change before update or delete or truncate on history
     for each statement execute function history_is_only_added_to()`,
  ],
}
