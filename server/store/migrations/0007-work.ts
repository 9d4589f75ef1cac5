import { type Kysely, sql } from 'kysely'
import type { DatabaseKind } from '../database.ts'

/**
 * Long work of every kind in one table; the studies move into it. What the program was still at
 * is queued again.
 */
export async function up(db: Kysely<unknown>, kind: DatabaseKind): Promise<void> {
  await db.schema
    .createTable('work')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('kind', 'text', (column) => column.notNull())
    .addColumn('feeder_id', 'text')
    .addColumn('feeder_version', 'integer')
    .addColumn('part_of', 'text', (column) => column.references('work.id'))
    .addColumn('payload', 'text', (column) => column.notNull())
    .addColumn('material', 'text')
    .addColumn('state', 'text', (column) => column.notNull())
    .addColumn('done', 'integer', (column) => column.notNull())
    .addColumn('total', 'integer', (column) => column.notNull())
    .addColumn('phase', 'text', (column) => column.notNull())
    .addColumn('attempt', 'integer', (column) => column.notNull())
    .addColumn('breakdowns', 'integer', (column) => column.notNull())
    .addColumn('holder', 'text')
    .addColumn('beat', 'integer', (column) => column.notNull())
    .addColumn('result', 'text')
    .addColumn('problem', 'text')
    .addColumn('actor_id', 'text', (column) => column.notNull())
    .addColumn('actor_role', 'text', (column) => column.notNull())
    .addColumn('started_at', 'text', (column) => column.notNull())
    .addColumn('ended_at', 'text')
    .addForeignKeyConstraint('work_feeder', ['feeder_id', 'feeder_version'], 'feeder_versions', [
      'feeder_id',
      'version',
    ])
    .execute()
  await addIndex(db, ['state', 'started_at'])
  await addIndex(db, ['feeder_id', 'kind', 'started_at'])
  await addIndex(db, ['part_of'])
  await sql`
    insert into work (id, kind, feeder_id, feeder_version, payload, state, done, total, phase,
      attempt, breakdowns, beat, result, problem, actor_id, actor_role, started_at, ended_at)
    select id, 'siting', feeder_id, feeder_version, request,
      case state when 'running' then 'queued' else state end, done, total, phase,
      0, 0, 0, result, problem, actor_id, actor_role, started_at, ended_at
    from studies`.execute(db)
  await db.schema.dropTable('studies').execute()
  if (kind === 'postgres') for (const statement of TELL) await sql.raw(statement).execute(db)
}

async function addIndex(db: Kysely<unknown>, columns: string[]): Promise<void> {
  const name = `work_${columns[0]}`
  await db.schema.createIndex(name).on('work').columns(columns).execute()
}

/** Other processes hear of each change as it is kept; on SQLite they look. */
const TELL = [
  `create function tell_of_work() returns trigger language plpgsql as
   $$ begin perform pg_notify('crossarm_work', new.id || ' ' || new.state); return null; end $$`,
  `create trigger work_told after insert or update on work
   for each row execute function tell_of_work()`,
]
