import { type Kysely, sql } from 'kysely'
import type { HistoryEntry } from '../../services/ports.ts'
import type { DatabaseKind } from '../database.ts'
import { hashOfEntry, NO_HASH } from '../history-chain.ts'
import { whatHappened } from '../what-happened.ts'

/** The history before this step, and after it. */
interface OldRow {
  subject: string
  feeder_id: string
  subject_id: string
  version: number
  at: string
  actor_id: string
  actor_role: string
  before: string | null
  after: string
}

interface NewRow extends Omit<OldRow, 'after'> {
  seq: number
  what: string
  device_at: string | null
  reason: string | null
  after: string | null
  previous_hash: string
  hash: string
}

/** Numbers the history in the order in which it was written, and closes it into a chain. */
export async function up(anyDb: Kysely<unknown>, kind: DatabaseKind): Promise<void> {
  const db = anyDb as Kysely<{ history: OldRow; history_chained: NewRow }>
  await makeTable(anyDb)
  let previous = { seq: 0, hash: NO_HASH }
  for (const row of await rowsInOrder(db, kind)) {
    const chained = chain(row, previous)
    await db.insertInto('history_chained').values(chained).execute()
    previous = chained
  }
  await anyDb.schema.dropTable('history').execute()
  await anyDb.schema.alterTable('history_chained').renameTo('history').execute()
  await makeIndexes(anyDb)
  for (const statement of ADD_ONLY[kind]) await sql.raw(statement).execute(db)
}

async function makeTable(db: Kysely<unknown>): Promise<void> {
  await db.schema
    .createTable('history_chained')
    .addColumn('seq', 'integer', (column) => column.primaryKey())
    .addColumn('subject', 'text', (column) => column.notNull())
    .addColumn('feeder_id', 'text', (column) => column.notNull())
    .addColumn('subject_id', 'text', (column) => column.notNull())
    .addColumn('version', 'integer', (column) => column.notNull())
    .addColumn('what', 'text', (column) => column.notNull())
    .addColumn('at', 'text', (column) => column.notNull())
    .addColumn('device_at', 'text')
    .addColumn('actor_id', 'text', (column) => column.notNull())
    .addColumn('actor_role', 'text', (column) => column.notNull())
    .addColumn('reason', 'text')
    .addColumn('before', 'text')
    .addColumn('after', 'text')
    .addColumn('previous_hash', 'text', (column) => column.notNull())
    .addColumn('hash', 'text', (column) => column.notNull())
    .execute()
}

async function makeIndexes(db: Kysely<unknown>): Promise<void> {
  await db.schema
    .createIndex('history_one_entry_a_version')
    .unique()
    .on('history')
    .columns(['subject', 'subject_id', 'feeder_id', 'version'])
    .execute()
  await db.schema
    .createIndex('history_of_feeder')
    .on('history')
    .columns(['feeder_id', 'seq'])
    .execute()
}

/** A file of SQLite knows the order of writing; for PostgreSQL the times have to do. */
function rowsInOrder(
  db: Kysely<{ history: OldRow; history_chained: NewRow }>,
  kind: DatabaseKind,
): Promise<OldRow[]> {
  const rows = db.selectFrom('history').selectAll()
  if (kind === 'sqlite') return rows.orderBy(sql`rowid`).execute()
  return rows
    .orderBy('at')
    .orderBy('version')
    .orderBy('subject')
    .orderBy('feeder_id')
    .orderBy('subject_id')
    .execute()
}

function chain(row: OldRow, previous: { seq: number; hash: string }): NewRow {
  const before: unknown = row.before === null ? null : JSON.parse(row.before)
  const after: unknown = JSON.parse(row.after)
  const entry = {
    seq: previous.seq + 1,
    subject: row.subject as HistoryEntry['subject'],
    feederId: row.feeder_id,
    subjectId: row.subject_id,
    version: row.version,
    what: whatHappened(before, after),
    at: row.at,
    deviceAt: null,
    actorId: row.actor_id,
    actorRole: row.actor_role as HistoryEntry['actorRole'],
    reason: null,
    before,
    after,
    previousHash: previous.hash,
  }
  return {
    ...row,
    seq: entry.seq,
    what: entry.what,
    device_at: null,
    reason: null,
    previous_hash: previous.hash,
    hash: hashOfEntry(entry),
  }
}

/**
 * Each kind of database has its own words for the rule that history is only added to. SQLite
 * tells no trigger of rows that an `insert or replace` puts aside, so that has one of its own.
 */
const ADD_ONLY: Record<DatabaseKind, readonly string[]> = {
  sqlite: [
    ...(['update', 'delete'] as const).map(
      (verb) =>
        `create trigger history_no_${verb} before ${verb} on history
         begin select raise(abort, 'history is only added to'); end`,
    ),
    `create trigger history_no_replace before insert on history
     when exists (
       select 1 from history where seq = new.seq or (subject = new.subject
       and subject_id = new.subject_id and feeder_id = new.feeder_id and version = new.version))
     begin select raise(abort, 'history is only added to'); end`,
  ],
  postgres: [
    `create trigger history_no_change before update or delete or truncate on history
     for each statement execute function history_is_only_added_to()`,
  ],
}
