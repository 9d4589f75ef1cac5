import type { HeldWork, WorkItem } from '../services/work-ports.ts'
import { endRow, findHeld, starterOf } from './work-end.ts'
import type { WorkWriting } from './work-writer.ts'

/** After so many breakdowns of the machinery under one item, it is not tried again. */
const MOST_BREAKDOWNS = 3

/** Lets another worker start over, where the holder stops by its own will. */
export async function handBack(writing: WorkWriting, held: HeldWork): Promise<void> {
  if (await findHeld(writing.transaction, held)) await queueAgain(writing, held.id, {})
}

/** @param held with `beat`, only where the holder has not been heard of since that beat */
export async function breakDown(
  writing: WorkWriting,
  held: HeldWork & { readonly beat?: number },
  problem: NonNullable<WorkItem['problem']>,
  at: string,
): Promise<void> {
  const row = await findHeld(writing.transaction, held)
  if (!row || (held.beat !== undefined && row.beat !== held.beat)) return
  const breakdowns = row.breakdowns + 1
  if (breakdowns < MOST_BREAKDOWNS) await queueAgain(writing, held.id, { breakdowns })
  else await endRow(writing, row, { state: 'failed', problem }, { at, actor: starterOf(row) })
}

async function queueAgain(
  { transaction, changed }: WorkWriting,
  id: string,
  changes: { readonly breakdowns?: number },
): Promise<void> {
  await transaction
    .updateTable('work')
    .set({ ...changes, state: 'queued', holder: null, done: 0, total: 0, phase: 'Waiting' })
    .where('id', '=', id)
    .execute()
  changed(id, 'queued')
}
