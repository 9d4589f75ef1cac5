import type { Feeder } from '#domain/feeder/feeder.ts'
import type { NestBody, NestRecord, NestStore } from '../services/bird-ports.ts'
import type { Stamp } from '../services/ports.ts'
import { bodyRow, keptOf, poleOf, touchedBody } from './body-record.ts'
import type { Database } from './database.ts'
import type { NestRow } from './tables.ts'
import { type RecordKind, versionedRecords } from './versioned-record.ts'

export const NEST_KIND: RecordKind<NestRow, NestRecord> = {
  subject: 'nest',
  table: 'nests',
  recordOf: (row) => ({
    ...(JSON.parse(row.body) as Omit<NestBody, 'pole' | 'species'>),
    id: row.id,
    species: row.species,
    ...poleOf(row),
    ...keptOf(row),
  }),
  touched: touchedBody,
}

export function nestRepository(db: Database): NestStore {
  const records = versionedRecords(db, NEST_KIND)
  const key = (feederId: string, id: string) => ({ feeder_id: feederId, id })
  return {
    list: (feederId) => records.list(feederId),
    add: (feederId, id, body, stamp) => records.add(rowOf(feederId, id, body, stamp), stamp),
    change: (feederId, id, version, body, stamp) =>
      records.change(key(feederId, id), version, columnsOf(body), stamp),
    delete: (feederId, id, version, stamp) => records.delete(key(feederId, id), version, stamp),
    restore: (feederId, id, version, stamp) => records.restore(key(feederId, id), version, stamp),
    listDeleted: (feederId) => records.listDeleted(feederId, inWords),
    purge: (feederId, id, version, reason, stamp) =>
      records.purge(key(feederId, id), version, reason, stamp),
  }
}

function inWords({ species, pole }: NestRecord): string {
  return pole === undefined ? `nest of ${species}` : `nest of ${species} on pole ${pole}`
}

function rowOf(feederId: string, id: string, body: NestBody, stamp: Stamp): NestRow {
  return { ...bodyRow(feederId, id, {}, stamp), ...columnsOf(body) }
}

function columnsOf({ pole, species, ...body }: NestBody) {
  return { pole: pole ?? null, species, body: JSON.stringify(body) }
}

/** Records the nests of a feeder's file that the record never held; see `addUnknownProtections`. */
export async function addUnknownNests(db: Database, feeder: Feeder, stamp: Stamp): Promise<void> {
  const feederId = feeder.header.id
  const records = versionedRecords(db, NEST_KIND)
  const known = await records.everHeld(feederId)
  const unknown = feeder.nests.filter(({ id }) => !known.has(id))
  await records.addAll(
    unknown.map(({ id, ...nest }) =>
      rowOf(feederId, id, { ...nest, seasons: [], note: '' }, stamp),
    ),
    stamp,
  )
}
