import type { ProgrammeBody, ProgrammeRecord, ProgrammeStore } from '../services/bird-ports.ts'
import { bodyRow, keptOf, touchedBody } from './body-record.ts'
import type { Database } from './database.ts'
import type { ProgrammeRow } from './tables.ts'
import { type RecordKind, versionedRecords } from './versioned-record.ts'

export const PROGRAMME_KIND: RecordKind<ProgrammeRow, ProgrammeRecord> = {
  subject: 'programme',
  table: 'programmes',
  recordOf: (row) => ({
    id: row.id,
    feederId: row.feeder_id,
    name: row.name,
    note: row.note,
    state: row.state as ProgrammeRecord['state'],
    programme: JSON.parse(row.body) as ProgrammeBody['programme'],
    ...keptOf(row),
  }),
  touched: touchedBody,
}

export function programmeRepository(db: Database): ProgrammeStore {
  const records = versionedRecords(db, PROGRAMME_KIND)
  const key = (feederId: string, id: string) => ({ feeder_id: feederId, id })
  return {
    list: async (feederId) => (await records.list(feederId)).sort(newestFirst),
    add: (feederId, id, { name, note, state, programme }, stamp) =>
      records.add({ ...bodyRow(feederId, id, programme, stamp), name, note, state }, stamp),
    change: (feederId, id, version, { name, note, state }, stamp) =>
      records.change(key(feederId, id), version, { name, note, state }, stamp),
    delete: (feederId, id, version, stamp) => records.delete(key(feederId, id), version, stamp),
    restore: (feederId, id, version, stamp) => records.restore(key(feederId, id), version, stamp),
    listDeleted: (feederId) => records.listDeleted(feederId, ({ name }) => name),
    purge: (feederId, id, version, reason, stamp) =>
      records.purge(key(feederId, id), version, reason, stamp),
  }
}

/** The record's list is in the order of ids, and stays so within a moment. */
function newestFirst(left: ProgrammeRecord, right: ProgrammeRecord): number {
  if (left.changedAt === right.changedAt) return 0
  return left.changedAt < right.changedAt ? 1 : -1
}
