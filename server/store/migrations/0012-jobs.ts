import { type ColumnDefinitionBuilder, type Kysely, sql } from 'kysely'
import type { DatabaseKind } from '../database.ts'

/** Crew work: jobs, what was entered in the field, what was left at the poles, orders of steps. */
export async function up(db: Kysely<unknown>, kind: DatabaseKind): Promise<void> {
  await makeJobs(db)
  await makeEntries(db)
  for (const statement of ADD_ONLY[kind]) await sql.raw(statement).execute(db)
  await makeBodyTable(db, 'as_left', (id) => id.references('jobs.id'))
  await makeBodyTable(db, 'step_sequences', (id) => id)
}

async function makeJobs(db: Kysely<unknown>): Promise<void> {
  await db.schema
    .createTable('jobs')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('feeder_id', 'text', (column) => column.notNull().references('feeders.id'))
    .addColumn('version', 'integer', (column) => column.notNull())
    .addColumn('title', 'text', (column) => column.notNull())
    .addColumn('kind', 'text', (column) => column.notNull())
    .addColumn('state', 'text', (column) => column.notNull())
    .addColumn('due_on', 'text')
    .addColumn('body', 'text', (column) => column.notNull())
    .addColumn('actor_id', 'text', (column) => column.notNull())
    .addColumn('actor_role', 'text', (column) => column.notNull())
    .addColumn('changed_at', 'text', (column) => column.notNull())
    .addColumn('deleted_at', 'text')
    // Last, since it is long and lists do without it.
    .addColumn('plan', 'text', (column) => column.notNull())
    .execute()
  await db.schema.createIndex('jobs_of_feeder').on('jobs').column('feeder_id').execute()
}

async function makeEntries(db: Kysely<unknown>): Promise<void> {
  await db.schema
    .createTable('job_entries')
    .addColumn('job_id', 'text', (column) => column.notNull().references('jobs.id'))
    .addColumn('position', 'integer', (column) => column.notNull())
    .addColumn('id', 'text', (column) => column.notNull())
    .addColumn('entry', 'text', (column) => column.notNull())
    .addColumn('device_at', 'text', (column) => column.notNull())
    .addColumn('actor_id', 'text', (column) => column.notNull())
    .addColumn('actor_role', 'text', (column) => column.notNull())
    .addColumn('kept_at', 'text', (column) => column.notNull())
    .addPrimaryKeyConstraint('job_entries_key', ['job_id', 'position'])
    .addUniqueConstraint('job_entries_once', ['job_id', 'id'])
    .execute()
}

async function makeBodyTable(
  db: Kysely<unknown>,
  name: string,
  of: (id: ColumnDefinitionBuilder) => ColumnDefinitionBuilder,
): Promise<void> {
  await db.schema
    .createTable(name)
    .addColumn('feeder_id', 'text', (column) => column.notNull())
    .addColumn('id', 'text', (column) => of(column.notNull()))
    .addColumn('version', 'integer', (column) => column.notNull())
    .addColumn('body', 'text', (column) => column.notNull())
    .addColumn('actor_id', 'text', (column) => column.notNull())
    .addColumn('actor_role', 'text', (column) => column.notNull())
    .addColumn('changed_at', 'text', (column) => column.notNull())
    .addColumn('deleted_at', 'text')
    .addPrimaryKeyConstraint(`${name}_key`, ['feeder_id', 'id'])
    .execute()
}

/**
 * What was entered in the field is only added to, in the words of each kind of database. SQLite tells
 * no trigger of rows that an `insert or replace` puts aside, so that has one of its own.
 */
const ADD_ONLY: Record<DatabaseKind, readonly string[]> = {
  sqlite: [
    ...(['update', 'delete'] as const).map(
      (verb) =>
        `create trigger job_entries_no_${verb} before ${verb} on job_entries
         begin select raise(abort, 'entries of a job are only added to'); end`,
    ),
    `create trigger job_entries_no_replace before insert on job_entries
     when exists (
       select 1 from job_entries where job_id = new.job_id
       and (position = new.position or id = new.id))
     begin select raise(abort, 'entries of a job are only added to'); end`,
  ],
  postgres: [
    `create function job_entries_are_only_added_to() returns trigger language plpgsql as
     $$ begin raise exception 'entries of a job are only added to'; end $$`,
    `create trigger job_entries_no_change before update or delete or truncate on job_entries
     for each statement execute function job_entries_are_only_added_to()`,
  ],
}
