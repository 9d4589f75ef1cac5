import type { Stamp } from '../services/ports.ts'
import type { WorkOrder, WorkStore } from '../services/work-ports.ts'
import type { Database } from './database.ts'
import { cancelWork, endWork } from './work-end.ts'
import { recordStart } from './work-history.ts'
import { breakDown, handBack } from './work-return.ts'
import { claimedOfRow, ITEM_COLUMNS, itemOfRow, newRow } from './work-row.ts'
import { type WorkWriting, workWriter } from './work-writer.ts'

export function workRepository(db: Database): WorkStore {
  const { write, onChange } = workWriter(db)
  return {
    ...workReading(db),
    onChange,
    add: (order, stamp) => write((writing) => addNew(writing, order, stamp)),
    claim: (workId, holder) => write((writing) => claim(writing, workId, holder)),
    // Alone in its statement and no part of the history, so it waits for no turn.
    beat: async ({ id, attempt }, progress) => {
      const { numUpdatedRows } = await db.plain
        .updateTable('work')
        .set((update) => ({ ...progress, beat: update('beat', '+', 1) }))
        .where('id', '=', id)
        .where('attempt', '=', attempt)
        .where('state', '=', 'running')
        .executeTakeFirst()
      return numUpdatedRows > 0
    },
    end: (held, ending, at) => write((writing) => endWork(writing, held, ending, at)),
    handBack: (held) => write((writing) => handBack(writing, held)),
    breakDown: (held, problem, at) => write((writing) => breakDown(writing, held, problem, at)),
    cancel: (workId, stamp) => write((writing) => cancelWork(writing, workId, stamp)),
  }
}

function workReading(db: Database) {
  const find: WorkStore['find'] = async (workId) => {
    const row = await db.query
      .selectFrom('work')
      .select(ITEM_COLUMNS)
      .where('id', '=', workId)
      .executeTakeFirst()
    return row ? itemOfRow(row) : null
  }
  const list: WorkStore['list'] = async (kind, feederId, most) => {
    const rows = await db.query
      .selectFrom('work')
      .select(ITEM_COLUMNS.filter((column) => column !== 'result'))
      .where('feeder_id', '=', feederId)
      .where('kind', '=', kind)
      .orderBy('started_at', 'desc')
      .orderBy('id')
      .limit(most)
      .execute()
    return rows.map((row) => itemOfRow({ ...row, result: null }))
  }
  const latest: WorkStore['latest'] = async (partOf, most) => {
    const rows = await db.query
      .selectFrom('work')
      .select(ITEM_COLUMNS.filter((column) => column !== 'result'))
      .where('part_of', partOf === null ? 'is' : '=', partOf)
      .orderBy('started_at', 'desc')
      .orderBy('id')
      .limit(most)
      .execute()
    return rows.map((row) => itemOfRow({ ...row, result: null }))
  }
  const waiting: WorkStore['waiting'] = async (most) => {
    const rows = await db.query
      .selectFrom('work')
      .select('id')
      .where('state', '=', 'queued')
      .orderBy('started_at')
      .orderBy('id')
      .limit(most)
      .execute()
    return rows.map(({ id }) => id)
  }
  const held: WorkStore['held'] = () =>
    db.query
      .selectFrom('work')
      .select(['id', 'attempt', 'beat'])
      .where('state', '=', 'running')
      .where('holder', 'is not', null)
      .execute()
  const countByState: WorkStore['countByState'] = async () => {
    const rows = await db.query
      .selectFrom('work')
      .select(['state', (select) => select.fn.countAll<number>().as('items')])
      .groupBy('state')
      .execute()
    return Object.fromEntries(rows.map(({ state, items }) => [state, Number(items)]))
  }
  return { find, list, latest, waiting, held, countByState }
}

async function addNew(writing: WorkWriting, order: WorkOrder, stamp: Stamp) {
  const known = await writing.transaction
    .selectFrom('work')
    .select(ITEM_COLUMNS)
    .where('id', '=', order.id)
    .executeTakeFirst()
  if (known) return itemOfRow(known)
  const row = await insert(writing, order, null, stamp)
  for (const part of order.parts ?? []) await insert(writing, part, order.id, stamp)
  return itemOfRow(row)
}

async function insert(
  { transaction, changed }: WorkWriting,
  order: WorkOrder,
  partOf: string | null,
  stamp: Stamp,
) {
  const row = newRow(order, partOf, stamp)
  await transaction.insertInto('work').values(row).execute()
  await recordStart(transaction, row, stamp)
  changed(row.id, row.state)
  return row
}

async function claim({ transaction, changed }: WorkWriting, workId: string, holder: string) {
  const row = await transaction
    .updateTable('work')
    .set((update) => ({ state: 'running', holder, attempt: update('attempt', '+', 1) }))
    .where('id', '=', workId)
    .where('state', '=', 'queued')
    .returningAll()
    .executeTakeFirst()
  if (!row) return null
  changed(row.id, row.state)
  return claimedOfRow(row)
}
