import type { Transaction } from 'kysely'
import type { Stamp, Written } from '../services/ports.ts'
import type { HeldWork, Progress, WorkEnding, WorkItem } from '../services/work-ports.ts'
import type { Tables } from './tables.ts'
import { recordEnd } from './work-history.ts'
import { ITEM_COLUMNS, type ItemRow, itemOfRow } from './work-row.ts'
import type { WorkWriting } from './work-writer.ts'

type End = Pick<WorkEnding, 'state' | 'result' | 'problem'> & Partial<Progress>

const UNFINISHED = ['queued', 'running']

/** Ends an item for its holder; null, and nothing kept, where it is the holder's no more. */
export async function endWork(
  writing: WorkWriting,
  held: HeldWork,
  { keep, ...ending }: WorkEnding & Progress,
  at: string,
): Promise<WorkItem | null> {
  const row = await findHeld(writing.transaction, held)
  if (!row) return null
  const result = keep ? await keep() : ending.result
  return endRow(writing, row, { ...ending, result }, { at, actor: starterOf(row) })
}

export async function cancelWork(
  writing: WorkWriting,
  workId: string,
  stamp: Stamp,
): Promise<Written<WorkItem>> {
  const row = await findRow(writing.transaction, workId)
  if (!row) return { status: 'missing' }
  if (!UNFINISHED.includes(row.state)) return { status: 'wrong-state', current: itemOfRow(row) }
  const record = await endRow(writing, row, { state: 'cancelled' }, stamp)
  for (const part of await unfinishedParts(writing.transaction, workId)) {
    await endRow(writing, part, { state: 'cancelled' }, stamp)
  }
  return { status: 'written', record }
}

/** Writes an end, with its place in the history and its part in what it belongs to. */
export async function endRow(
  writing: WorkWriting,
  row: ItemRow,
  { state, result, problem, ...progress }: End,
  stamp: Stamp,
): Promise<WorkItem> {
  const { transaction, changed } = writing
  const ended = await transaction
    .updateTable('work')
    .set({
      ...progress,
      state,
      ended_at: stamp.at,
      result: result === undefined ? null : JSON.stringify(result),
      problem: problem === undefined ? null : JSON.stringify(problem),
      holder: null,
      material: null,
    })
    .where('id', '=', row.id)
    .returning(ITEM_COLUMNS)
    .executeTakeFirstOrThrow()
  await recordEnd(transaction, row, state, stamp)
  changed(row.id, state)
  if (row.part_of !== null) await countPart(writing, row.part_of, stamp.at)
  return itemOfRow(ended)
}

export async function findHeld(
  transaction: Transaction<Tables>,
  { id, attempt }: HeldWork,
): Promise<ItemRow | null> {
  const row = await findRow(transaction, id)
  return row && row.state === 'running' && row.attempt === attempt ? row : null
}

export function starterOf(row: ItemRow): WorkItem['startedBy'] {
  return itemOfRow({ ...row, result: null }).startedBy
}

function findRow(transaction: Transaction<Tables>, id: string): Promise<ItemRow | undefined> {
  return transaction.selectFrom('work').select(ITEM_COLUMNS).where('id', '=', id).executeTakeFirst()
}

function unfinishedParts(transaction: Transaction<Tables>, workId: string): Promise<ItemRow[]> {
  return transaction
    .selectFrom('work')
    .select(ITEM_COLUMNS)
    .where('part_of', '=', workId)
    .where('state', 'in', UNFINISHED)
    .execute()
}

/** What consists of parts ends with the last of them. */
async function countPart(writing: WorkWriting, id: string, at: string): Promise<void> {
  const { transaction, changed } = writing
  const whole = await findRow(transaction, id)
  if (whole?.state !== 'running') return
  const done = whole.done + 1
  if (done < whole.total) {
    await transaction.updateTable('work').set({ done }).where('id', '=', id).execute()
    changed(id, whole.state)
    return
  }
  const result = { parts: await partsOf(transaction, id) }
  await endRow(writing, whole, { state: 'done', done, result }, { at, actor: starterOf(whole) })
}

async function partsOf(transaction: Transaction<Tables>, id: string) {
  const rows = await transaction
    .selectFrom('work')
    .select(['id', 'feeder_id', 'state'])
    .where('part_of', '=', id)
    .orderBy('feeder_id')
    .orderBy('id')
    .execute()
  return rows.map(({ id: workId, feeder_id, state }) => ({ workId, feederId: feeder_id, state }))
}
