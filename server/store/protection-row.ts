import type { Protection } from '#domain/feeder/birds.ts'
import type { Actor, ProtectionBody, ProtectionRecord, Stamp } from '../services/ports.ts'
import type { ProtectionRow } from './tables.ts'

export function recordOfProtectionRow(row: ProtectionRow): ProtectionRecord {
  return {
    id: row.id,
    pole: row.pole,
    kind: row.kind as Protection['kind'],
    what: row.what,
    state: row.state as Protection['state'],
    on: row.state_date,
    ...(row.note === null ? {} : { note: row.note }),
    version: row.version,
    changedBy: { id: row.actor_id, role: row.actor_role as Actor['role'] },
    changedAt: row.changed_at,
    deletedAt: row.deleted_at,
  }
}

/** Its first version. */
export function rowOfProtection(
  feederId: string,
  id: string,
  body: ProtectionBody,
  { actor, at }: Stamp,
): ProtectionRow {
  return {
    ...columnsOfProtection(body),
    feeder_id: feederId,
    id,
    version: 1,
    actor_id: actor.id,
    actor_role: actor.role,
    changed_at: at,
    deleted_at: null,
  }
}

/** What a person fills in. */
export function columnsOfProtection({ pole, kind, what, state, on, note }: ProtectionBody) {
  return { pole, kind, what, state, state_date: on, note: note ?? null }
}
