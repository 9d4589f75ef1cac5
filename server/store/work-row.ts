import type { Stamp } from '../services/ports.ts'
import type { ClaimedWork, WorkItem, WorkOrder } from '../services/work-ports.ts'
import type { WorkRow } from './tables.ts'

/** All but the bulk that only the worker needs. */
export const ITEM_COLUMNS = [
  'id',
  'kind',
  'feeder_id',
  'feeder_version',
  'part_of',
  'payload',
  'state',
  'done',
  'total',
  'phase',
  'attempt',
  'breakdowns',
  'beat',
  'result',
  'problem',
  'actor_id',
  'actor_role',
  'started_at',
  'ended_at',
] as const satisfies readonly (keyof WorkRow)[]

export type ItemRow = Pick<WorkRow, (typeof ITEM_COLUMNS)[number]>

export function itemOfRow(row: ItemRow): WorkItem {
  return {
    id: row.id,
    kind: row.kind as WorkItem['kind'],
    feederId: row.feeder_id,
    feederVersion: row.feeder_version,
    payload: JSON.parse(row.payload),
    state: row.state as WorkItem['state'],
    done: row.done,
    total: row.total,
    phase: row.phase,
    attempt: row.attempt,
    partOf: row.part_of,
    startedBy: { id: row.actor_id, role: row.actor_role as WorkItem['startedBy']['role'] },
    startedAt: row.started_at,
    endedAt: row.ended_at,
    ...(row.result !== null && { result: JSON.parse(row.result) }),
    ...(row.problem !== null && { problem: JSON.parse(row.problem) as WorkItem['problem'] }),
  }
}

export function claimedOfRow(row: WorkRow): ClaimedWork {
  return { ...itemOfRow(row), material: row.material }
}

/** An item of parts is under way from the start, in nobody's hands. */
export function newRow(order: WorkOrder, partOf: string | null, { actor, at }: Stamp): WorkRow {
  const { parts } = order
  return {
    id: order.id,
    kind: order.kind,
    feeder_id: order.feederId,
    feeder_version: order.feederVersion,
    part_of: partOf,
    payload: JSON.stringify(order.payload),
    material: order.material ?? null,
    state: parts ? 'running' : 'queued',
    done: 0,
    total: parts?.length ?? 0,
    phase: parts ? 'Parts ended' : 'Waiting',
    attempt: 0,
    breakdowns: 0,
    holder: null,
    beat: 0,
    result: null,
    problem: null,
    actor_id: actor.id,
    actor_role: actor.role,
    started_at: at,
    ended_at: null,
  }
}
