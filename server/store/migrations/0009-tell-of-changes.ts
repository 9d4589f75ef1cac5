import { type Kysely, sql } from 'kysely'
import type { DatabaseKind } from '../database.ts'

/** PostgreSQL tells all servers of a change once it is committed; of SQLite's file each server asks. */
export async function up(db: Kysely<unknown>, kind: DatabaseKind): Promise<void> {
  if (kind === 'sqlite') return
  for (const statement of TELLING) await sql.raw(statement).execute(db)
}

const TELLING = [
  `create function tell_of_changes() returns trigger language plpgsql as
   $$ begin perform pg_notify('crossarm_changes', ''); return null; end $$`,
  `create trigger history_told after insert on history
   for each statement execute function tell_of_changes()`,
]
