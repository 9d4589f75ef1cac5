import type { SequenceRecord, StepSequenceStore } from '../services/job-ports.ts'
import { bodyRow, keptOf, touchedBody } from './body-record.ts'
import type { Database } from './database.ts'
import type { BodyRow } from './tables.ts'
import { type RecordKind, versionedRecords } from './versioned-record.ts'

export const STEP_SEQUENCE_KIND: RecordKind<BodyRow, SequenceRecord> = {
  subject: 'step-sequence',
  table: 'step_sequences',
  recordOf,
  // Entries from before an order could be withdrawn have no such member.
  rememberedOf: (row) => ({
    ...recordOf(row),
    ...(row.deleted_at !== null && { deletedAt: row.deleted_at }),
  }),
  touched: touchedBody,
}

function recordOf(row: BodyRow): SequenceRecord {
  const { version, changedBy, changedAt } = keptOf(row)
  const sequence = JSON.parse(row.body) as SequenceRecord['sequence']
  return { sequence, version, changedBy, changedAt }
}

/** Those of the whole utility, of no feeder. */
const NO_FEEDER = ''

export function stepSequenceRepository(db: Database): StepSequenceStore {
  const records = versionedRecords(db, STEP_SEQUENCE_KIND)
  return {
    list: () => records.list(NO_FEEDER),
    put: (version, sequence, stamp) =>
      records.put(bodyRow(NO_FEEDER, sequence.id, sequence, stamp), version, stamp),
    delete: (id, version, stamp) => records.delete({ id, feeder_id: NO_FEEDER }, version, stamp),
  }
}
