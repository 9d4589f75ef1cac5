import type { BirdSettings, BirdSettingsRecord, BirdSettingsStore } from '../services/bird-ports.ts'
import { bodyRow, keptOf, touchedBody } from './body-record.ts'
import type { Database } from './database.ts'
import type { BodyRow } from './tables.ts'
import { type RecordKind, versionedRecords } from './versioned-record.ts'

export const BIRD_SETTINGS_KIND: RecordKind<BodyRow, BirdSettingsRecord> = {
  subject: 'bird-settings',
  table: 'bird_settings',
  recordOf: (row) => {
    const { version, changedBy, changedAt } = keptOf(row)
    return { settings: JSON.parse(row.body) as BirdSettings, version, changedBy, changedAt }
  },
  touched: touchedBody,
}

/** There is one for the whole utility, of no feeder. */
const KEY = { feeder_id: '', id: 'utility' }

const NOTHING_SET: BirdSettingsRecord = {
  settings: { countWetFeathers: false, species: [], measures: [], weights: {}, bufferSets: [] },
  version: 0,
  changedBy: null,
  changedAt: null,
}

export function birdSettingsRepository(db: Database): BirdSettingsStore {
  const records = versionedRecords(db, BIRD_SETTINGS_KIND)
  return {
    get: async () => (await records.find(KEY)) ?? NOTHING_SET,
    change: (version, settings, stamp) =>
      records.put(bodyRow(KEY.feeder_id, KEY.id, settings, stamp), version, stamp),
  }
}
