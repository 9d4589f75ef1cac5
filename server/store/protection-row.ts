import type { Protection } from '#domain/feeder/birds.ts'
import type { MeasureKind } from '#domain/feeder/measure-kinds.ts'
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
    ...(row.note !== null && { note: row.note }),
    ...(row.measure !== null && { measure: row.measure as MeasureKind }),
    ...(row.part_ids !== null && { partIds: JSON.parse(row.part_ids) as string[] }),
    ...(row.dimension_m !== null && { dimensionM: row.dimension_m }),
    ...(row.material_class !== null && { materialClass: row.material_class }),
    ...(row.installed_by !== null && { installedBy: row.installed_by }),
    ...(row.cost_usd !== null && { costUsd: row.cost_usd }),
    ...(row.inspect_every_months !== null && { inspectEveryMonths: row.inspect_every_months }),
    ...(row.condition !== null && {
      condition: row.condition as NonNullable<Protection['condition']>,
    }),
    ...(row.inspected_on !== null && { inspectedOn: row.inspected_on }),
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
export function columnsOfProtection(body: ProtectionBody) {
  return {
    pole: body.pole,
    kind: body.kind,
    what: body.what,
    state: body.state,
    state_date: body.on,
    note: body.note ?? null,
    measure: body.measure ?? null,
    part_ids: body.partIds ? JSON.stringify(body.partIds) : null,
    dimension_m: body.dimensionM ?? null,
    material_class: body.materialClass ?? null,
    installed_by: body.installedBy ?? null,
    cost_usd: body.costUsd ?? null,
    inspect_every_months: body.inspectEveryMonths ?? null,
    condition: body.condition ?? null,
    inspected_on: body.inspectedOn ?? null,
  }
}
