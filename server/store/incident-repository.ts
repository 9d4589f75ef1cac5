import type { Feeder } from '#domain/feeder/feeder.ts'
import type { IncidentBody, IncidentRecord, IncidentStore } from '../services/bird-ports.ts'
import type { Stamp } from '../services/ports.ts'
import { bodyRow, keptOf, poleOf, touchedBody } from './body-record.ts'
import type { Database } from './database.ts'
import type { IncidentRow } from './tables.ts'
import { type RecordKind, versionedRecords } from './versioned-record.ts'

export const INCIDENT_KIND: RecordKind<IncidentRow, IncidentRecord> = {
  subject: 'incident',
  table: 'incidents',
  recordOf: (row) => ({
    ...(JSON.parse(row.body) as Omit<IncidentBody, 'pole' | 'species' | 'foundOn'>),
    id: row.id,
    species: row.species,
    foundOn: row.found_on,
    ...poleOf(row),
    ...keptOf(row),
  }),
  touched: touchedBody,
}

export function incidentRepository(db: Database): IncidentStore {
  const records = versionedRecords(db, INCIDENT_KIND)
  const key = (feederId: string, id: string) => ({ feeder_id: feederId, id })
  return {
    list: async (feederId) => (await records.list(feederId)).sort(newestFirst),
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

/** The record's list is in the order of ids, and stays so within a day. */
function newestFirst(left: IncidentRecord, right: IncidentRecord): number {
  if (left.foundOn === right.foundOn) return 0
  return left.foundOn < right.foundOn ? 1 : -1
}

function inWords({ species, foundOn, pole }: IncidentRecord): string {
  const where = pole === undefined ? '' : ` at pole ${pole}`
  return `${species} found ${foundOn}${where}`
}

function rowOf(feederId: string, id: string, body: IncidentBody, stamp: Stamp): IncidentRow {
  return { ...bodyRow(feederId, id, {}, stamp), ...columnsOf(body) }
}

function columnsOf({ pole, species, foundOn, ...body }: IncidentBody) {
  return { pole: pole ?? null, species, found_on: foundOn, body: JSON.stringify(body) }
}

/** Records the finds of a feeder's file that the record never held; see `addUnknownProtections`. */
export async function addUnknownIncidents(
  db: Database,
  feeder: Feeder,
  stamp: Stamp,
): Promise<void> {
  const feederId = feeder.header.id
  const records = versionedRecords(db, INCIDENT_KIND)
  const known = await records.everHeld(feederId)
  const unknown = feeder.incidents.filter(({ id }) => !known.has(id))
  await records.addAll(
    unknown.map(({ id, ...incident }) => rowOf(feederId, id, incident, stamp)),
    stamp,
  )
}
