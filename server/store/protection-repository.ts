import type { Transaction } from 'kysely'
import type { Feeder } from '#domain/feeder/feeder.ts'
import type {
  Actor,
  ProtectionChange,
  ProtectionRecord,
  ProtectionStore,
  Stamp,
  Written,
} from '../services/ports.ts'
import type { Database } from './database.ts'
import { appendHistory, readHistory } from './history.ts'
import { recordOfProtectionRow, rowOfProtection } from './protection-row.ts'
import type { ProtectionRow, Tables } from './tables.ts'

export function protectionRepository(db: Database): ProtectionStore {
  return {
    list: (feederId) => listStanding(db, feederId),
    add: (feederId, id, body, stamp) =>
      db.transaction((transaction) =>
        insert(transaction, rowOfProtection(feederId, id, 1, body, stamp), stamp),
      ),
    change: (feederId, id, version, body, stamp) =>
      write(db, feederId, id, version, stamp, (row) =>
        row.deleted_at === null
          ? rowOfProtection(feederId, id, row.version + 1, body, stamp)
          : null,
      ),
    delete: (feederId, id, version, stamp) =>
      write(db, feederId, id, version, stamp, (row) =>
        row.deleted_at === null ? { ...restamped(row, stamp), deleted_at: stamp.at } : null,
      ),
    restore: (feederId, id, stamp) =>
      write(db, feederId, id, undefined, stamp, (row) =>
        row.deleted_at === null ? null : { ...restamped(row, stamp), deleted_at: null },
      ),
    history: (feederId, id) => changesOf(db, feederId, id),
  }
}

/** Records the items of a feeder's file that the record does not hold, deleted ones counted as held. */
export async function addUnknownProtections(
  transaction: Transaction<Tables>,
  feeder: Feeder,
  stamp: Stamp,
): Promise<void> {
  const feederId = feeder.header.id
  const rows = await transaction
    .selectFrom('protections')
    .select('id')
    .where('feeder_id', '=', feederId)
    .execute()
  const known = new Set(rows.map(({ id }) => id))
  for (const item of feeder.protections) {
    if (known.has(item.id)) continue
    await insert(transaction, rowOfProtection(feederId, item.id, 1, item, stamp), stamp)
  }
}

async function listStanding(db: Database, feederId: string): Promise<ProtectionRecord[]> {
  const rows = await db.query
    .selectFrom('protections')
    .selectAll()
    .where('feeder_id', '=', feederId)
    .where('deleted_at', 'is', null)
    .orderBy('pole')
    .orderBy('id')
    .execute()
  return rows.map(recordOfProtectionRow)
}

async function insert(
  transaction: Transaction<Tables>,
  row: ProtectionRow,
  stamp: Stamp,
): Promise<ProtectionRecord> {
  await transaction.insertInto('protections').values(row).execute()
  return remember(transaction, null, row, stamp)
}

/** `next` gives the row as it is to be, or null where the present state does not allow the change. */
function write(
  db: Database,
  feederId: string,
  id: string,
  version: number | undefined,
  stamp: Stamp,
  next: (row: ProtectionRow) => ProtectionRow | null,
): Promise<Written<ProtectionRecord>> {
  return db.transaction(async (transaction) => {
    const row = await findRow(transaction, feederId, id)
    if (!row) return { status: 'missing' }
    const current = recordOfProtectionRow(row)
    if (version !== undefined && version !== row.version) return { status: 'stale', current }
    const changed = next(row)
    if (!changed) return { status: 'wrong-state', current }
    await update(transaction, changed)
    return { status: 'written', record: await remember(transaction, row, changed, stamp) }
  })
}

function findRow(transaction: Transaction<Tables>, feederId: string, id: string) {
  return transaction
    .selectFrom('protections')
    .selectAll()
    .where('feeder_id', '=', feederId)
    .where('id', '=', id)
    .executeTakeFirst()
}

async function update(transaction: Transaction<Tables>, row: ProtectionRow): Promise<void> {
  await transaction
    .updateTable('protections')
    .set(row)
    .where('feeder_id', '=', row.feeder_id)
    .where('id', '=', row.id)
    .execute()
}

function restamped(row: ProtectionRow, { actor, at }: Stamp): ProtectionRow {
  return {
    ...row,
    version: row.version + 1,
    actor_id: actor.id,
    actor_role: actor.role,
    changed_at: at,
  }
}

async function remember(
  transaction: Transaction<Tables>,
  before: ProtectionRow | null,
  after: ProtectionRow,
  stamp: Stamp,
): Promise<ProtectionRecord> {
  const record = recordOfProtectionRow(after)
  const entry = { feederId: after.feeder_id, subjectId: after.id, version: after.version }
  await appendHistory(
    transaction,
    {
      ...entry,
      subject: 'protection',
      before: before && recordOfProtectionRow(before),
      after: record,
    },
    stamp,
  )
  return record
}

async function changesOf(db: Database, feederId: string, id: string): Promise<ProtectionChange[]> {
  const rows = await readHistory(db, 'protection', feederId, id)
  return rows.map((row) => ({
    at: row.at,
    actorId: row.actor_id,
    actorRole: row.actor_role as Actor['role'],
    before: row.before === null ? null : (JSON.parse(row.before) as ProtectionRecord),
    after: JSON.parse(row.after) as ProtectionRecord,
  }))
}
