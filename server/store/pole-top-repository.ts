import type { PoleTopChoice, PoleTopRecord, PoleTopStore } from '../services/bird-ports.ts'
import { bodyRow, keptOf, touchedBody } from './body-record.ts'
import type { Database } from './database.ts'
import type { BodyRow } from './tables.ts'
import { type RecordKind, versionedRecords } from './versioned-record.ts'

export const POLE_TOP_KIND: RecordKind<BodyRow, PoleTopRecord> = {
  subject: 'pole-top',
  table: 'pole_tops',
  recordOf: (row) => ({
    ...(JSON.parse(row.body) as Omit<PoleTopChoice, 'pole'>),
    id: row.id,
    pole: row.id,
    ...keptOf(row),
  }),
  touched: touchedBody,
}

export function poleTopRepository(db: Database): PoleTopStore {
  const records = versionedRecords(db, POLE_TOP_KIND)
  const key = (feederId: string, id: string) => ({ feeder_id: feederId, id })
  return {
    list: (feederId) => records.list(feederId),
    choose: (feederId, version, { pole, ...choice }, stamp) =>
      records.put(bodyRow(feederId, pole, choice, stamp), version, stamp),
    delete: (feederId, id, version, stamp) => records.delete(key(feederId, id), version, stamp),
    restore: (feederId, id, version, stamp) => records.restore(key(feederId, id), version, stamp),
    listDeleted: (feederId) => records.listDeleted(feederId, ({ pole }) => `top of pole ${pole}`),
    purge: (feederId, id, version, reason, stamp) =>
      records.purge(key(feederId, id), version, reason, stamp),
  }
}
