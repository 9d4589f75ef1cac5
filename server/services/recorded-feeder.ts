import type { ProtectionRecord } from '#contract/protections.ts'
import type { Incident, Nest, Protection } from '#domain/feeder/birds.ts'
import type { IncidentRecord, NestRecord } from './bird-ports.ts'
import { findFeeder } from './find-feeder.ts'
import type { Store, StoredFeeder } from './ports.ts'

/**
 * The named version of a feeder, or its newest, with the items, nests and finds that stand in the
 * record now, whatever its file said. All that computes with them takes it from here.
 *
 * @throws Refusal `not-found`
 */
export async function recordedFeeder(
  store: Pick<Store, 'feeders' | 'protections' | 'nests' | 'incidents'>,
  feederId: string,
  version?: number,
): Promise<StoredFeeder> {
  const stored = await findFeeder(store, feederId, version)
  const [protections, nests, incidents] = await Promise.all([
    store.protections.list(feederId),
    store.nests.list(feederId),
    store.incidents.list(feederId),
  ])
  return {
    ...stored,
    feeder: {
      ...stored.feeder,
      protections: protections.map(protectionOf),
      nests: nests.map(nestOf),
      incidents: incidents.map(incidentOf),
    },
  }
}

function protectionOf(record: ProtectionRecord): Protection {
  const { version: _version, changedBy: _by, changedAt: _at, deletedAt: _deleted, ...item } = record
  return item
}

function nestOf(record: NestRecord): Nest {
  const {
    version: _version,
    changedBy: _by,
    changedAt: _at,
    deletedAt: _deleted,
    seasons: _seasons,
    note: _note,
    ...nest
  } = record
  return nest
}

function incidentOf(record: IncidentRecord): Incident {
  const { version: _version, changedBy: _by, changedAt: _at, deletedAt: _deleted, ...find } = record
  return find
}
