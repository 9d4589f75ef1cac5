import type { Actor, Stamp } from '../services/ports.ts'
import type { BodyRow } from './tables.ts'

/** Columns of the first version of a record that keeps most of what it says as JSON. */
export function bodyRow(feederId: string, id: string, body: object, { actor, at }: Stamp): BodyRow {
  return {
    feeder_id: feederId,
    id,
    version: 1,
    body: JSON.stringify(body),
    actor_id: actor.id,
    actor_role: actor.role,
    changed_at: at,
    deleted_at: null,
  }
}

/** What every such record carries beside its own. */
export function keptOf(row: BodyRow) {
  return {
    version: row.version,
    changedBy: { id: row.actor_id, role: row.actor_role as Actor['role'] },
    changedAt: row.changed_at,
    deletedAt: row.deleted_at,
  }
}

/** Columns that say who wrote last. */
export function touchedBody({ actor, at }: Stamp) {
  return { actor_id: actor.id, actor_role: actor.role, changed_at: at }
}

/** Member for an optional column, left out where nothing stands in it. */
export function poleOf({ pole }: { readonly pole: string | null }) {
  return pole === null ? {} : { pole }
}
