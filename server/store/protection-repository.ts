import type { Feeder } from '#domain/feeder/feeder.ts'
import type { ProtectionRecord, ProtectionStore, Stamp } from '../services/ports.ts'
import type { Database } from './database.ts'
import { columnsOfProtection, recordOfProtectionRow, rowOfProtection } from './protection-row.ts'
import type { ProtectionRow } from './tables.ts'
import { type RecordKind, versionedRecords } from './versioned-record.ts'

export const PROTECTION_KIND: RecordKind<ProtectionRow, ProtectionRecord> = {
  subject: 'protection',
  table: 'protections',
  recordOf: recordOfProtectionRow,
  touched: ({ actor, at }) => ({ actor_id: actor.id, actor_role: actor.role, changed_at: at }),
}

export function protectionRepository(db: Database): ProtectionStore {
  const records = versionedRecords(db, PROTECTION_KIND)
  const key = (feederId: string, id: string) => ({ feeder_id: feederId, id })
  return {
    list: async (feederId) => (await records.list(feederId)).sort(byPole),
    add: (feederId, id, body, stamp) =>
      records.add(rowOfProtection(feederId, id, body, stamp), stamp),
    change: (feederId, id, version, body, stamp) =>
      records.change(key(feederId, id), version, columnsOfProtection(body), stamp),
    delete: (feederId, id, version, stamp) => records.delete(key(feederId, id), version, stamp),
    restore: (feederId, id, version, stamp) => records.restore(key(feederId, id), version, stamp),
    listDeleted: (feederId) =>
      records.listDeleted(feederId, ({ what, pole }) => `${what} on pole ${pole}`),
    purge: (feederId, id, version, reason, stamp) =>
      records.purge(key(feederId, id), version, reason, stamp),
  }
}

/** The record's list is in the order of ids, and stays so within a pole. */
function byPole(left: ProtectionRecord, right: ProtectionRecord): number {
  if (left.pole === right.pole) return 0
  return left.pole < right.pole ? -1 : 1
}

/**
 * Records the items of a feeder's file that the record never held. Deleted and purged ones were
 * held: layers do not bring back what a person took out.
 */
export async function addUnknownProtections(
  db: Database,
  feeder: Feeder,
  stamp: Stamp,
): Promise<void> {
  const feederId = feeder.header.id
  const records = versionedRecords(db, PROTECTION_KIND)
  const known = await records.everHeld(feederId)
  const unknown = feeder.protections.filter(({ id }) => !known.has(id))
  await records.addAll(
    unknown.map((item) => rowOfProtection(feederId, item.id, item, stamp)),
    stamp,
  )
}
