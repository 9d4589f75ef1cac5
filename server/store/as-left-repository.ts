import type { AsLeftRecord, AsLeftStore } from '../services/job-ports.ts'
import { bodyRow, keptOf, touchedBody } from './body-record.ts'
import type { Database } from './database.ts'
import type { BodyRow } from './tables.ts'
import { type RecordKind, versionedRecords } from './versioned-record.ts'

export const AS_LEFT_KIND: RecordKind<BodyRow, AsLeftRecord> = {
  subject: 'as-left',
  table: 'as_left',
  recordOf: (row) => ({
    jobId: row.id,
    feederId: row.feeder_id,
    asLeft: JSON.parse(row.body) as AsLeftRecord['asLeft'],
    ...keptOf(row),
  }),
  touched: touchedBody,
}

export function asLeftRepository(db: Database): AsLeftStore {
  const records = versionedRecords(db, AS_LEFT_KIND)
  return {
    find: (id) => records.find({ id }),
    put: ({ id, feederId }, version, asLeft, stamp) =>
      records.put(bodyRow(feederId, id, asLeft, stamp), version, stamp),
  }
}
