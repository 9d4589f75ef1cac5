import type { Transaction } from 'kysely'
import type { Stamp } from '../services/ports.ts'
import { appendHistory } from './history.ts'
import type { Tables, WorkRow } from './tables.ts'

type RecordedRow = Pick<WorkRow, 'id' | 'kind' | 'feeder_id' | 'feeder_version' | 'state'>

/** A study is in the history with its start and its end; other work with what it changes. */
export async function recordStart(
  transaction: Transaction<Tables>,
  row: RecordedRow,
  stamp: Stamp,
): Promise<void> {
  if (row.kind !== 'siting') return
  await appendHistory(
    transaction,
    { ...entryOf(row), version: 1, before: null, after: brief(row) },
    stamp,
  )
}

/** @param before the item as it was until its end */
export async function recordEnd(
  transaction: Transaction<Tables>,
  before: RecordedRow,
  state: string,
  stamp: Stamp,
): Promise<void> {
  if (before.kind !== 'siting') return
  const after = brief({ ...before, state })
  await appendHistory(
    transaction,
    { ...entryOf(before), version: 2, before: brief(before), after },
    stamp,
  )
}

function entryOf({ id, feeder_id }: RecordedRow) {
  return { subject: 'study', subjectId: id, feederId: feeder_id } as const
}

function brief({ state, feeder_version }: RecordedRow) {
  return { state, feederVersion: feeder_version }
}
