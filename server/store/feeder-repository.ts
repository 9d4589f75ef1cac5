import type { Transaction } from 'kysely'
import type { Feeder } from '#domain/feeder/feeder.ts'
import type { FeederStore, FeederSummary, Origin, Stamp, StoredFeeder } from '../services/ports.ts'
import { hashOfFeeder } from './check-feeders.ts'
import type { Database } from './database.ts'
import { appendHistory, historyRepository } from './history.ts'
import { addUnknownIncidents } from './incident-repository.ts'
import { addUnknownNests } from './nest-repository.ts'
import { ParsedFeeders } from './parsed-feeders.ts'
import { addUnknownProtections } from './protection-repository.ts'
import type { Tables } from './tables.ts'

export function feederRepository(db: Database): FeederStore {
  const parsed = new ParsedFeeders()
  return {
    count: async () => {
      const row = await db.query
        .selectFrom('feeders')
        .select((select) => select.fn.countAll<number>().as('feeders'))
        .executeTakeFirstOrThrow()
      return Number(row.feeders)
    },
    list: () => listNewest(db),
    find: (feederId, version) => findVersion(db, parsed, feederId, version),
    add: (feeder, origin, stamp) =>
      db.transaction((transaction) => addVersion(db, transaction, feeder, origin, stamp)),
  }
}

async function listNewest(db: Database): Promise<FeederSummary[]> {
  const rows = await newestVersions(db)
    .select(['feeders.id', 'feeders.origin', 'version', 'name', 'nominal_kv', 'place'])
    .select(['poles', 'customers', 'coordinates'])
    .orderBy('name')
    .orderBy('feeders.id')
    .execute()
  return rows.map(({ nominal_kv, origin, coordinates, ...row }) => ({
    ...row,
    nominalKv: nominal_kv,
    origin: origin as Origin,
    coordinates: coordinates as FeederSummary['coordinates'],
  }))
}

function newestVersions(db: Database) {
  return db.query
    .selectFrom('feeders')
    .innerJoin('feeder_versions', (join) =>
      join
        .onRef('feeder_versions.feeder_id', '=', 'feeders.id')
        .onRef('feeder_versions.version', '=', 'feeders.newest_version'),
    )
}

async function findVersion(
  db: Database,
  parsed: ParsedFeeders,
  feederId: string,
  version: number | undefined,
): Promise<StoredFeeder | null> {
  const row = await db.query
    .selectFrom('feeders')
    .innerJoin('feeder_versions', 'feeder_versions.feeder_id', 'feeders.id')
    .select(['origin', 'version'])
    .where('feeders.id', '=', feederId)
    .where(({ eb, ref }) => eb('version', '=', version ?? ref('newest_version')))
    .executeTakeFirst()
  if (!row) return null
  const origin = row.origin as Origin
  const known = parsed.find(feederId, row.version)
  if (known) return { feeder: known, version: row.version, origin }
  const feeder = await readFeeder(db, feederId, row.version)
  // What a transaction sees may never come to be.
  if (!db.isInTransaction) parsed.keep(feederId, row.version, feeder)
  return { feeder, version: row.version, origin }
}

async function readFeeder(db: Database, feederId: string, version: number): Promise<Feeder> {
  const { feeder } = await db.query
    .selectFrom('feeder_versions')
    .select('feeder')
    .where('feeder_id', '=', feederId)
    .where('version', '=', version)
    .executeTakeFirstOrThrow()
  return JSON.parse(feeder) as Feeder
}

async function addVersion(
  db: Database,
  transaction: Transaction<Tables>,
  feeder: Feeder,
  origin: Origin,
  stamp: Stamp,
): Promise<number> {
  const { id } = feeder.header
  const before = (await historyRepository(db).of('feeder', id, id)).at(-1)
  const version = (before?.version ?? 0) + 1
  const text = JSON.stringify(feeder)
  await keepNewest(transaction, id, origin, version)
  await insertVersion(transaction, feeder, version, text, stamp)
  const after = { version, ...outlineOf(feeder), sha256: hashOfFeeder(text) }
  const entry = { subject: 'feeder', feederId: id, subjectId: id, version } as const
  await appendHistory(transaction, { ...entry, before: before?.after ?? null, after }, stamp)
  await addUnknownProtections(db, feeder, stamp)
  await addUnknownNests(db, feeder, stamp)
  await addUnknownIncidents(db, feeder, stamp)
  return version
}

/** What the history says of a feeder; the whole of each version is kept beside it. */
function outlineOf(feeder: Feeder) {
  const { name, nominalKv } = feeder.header
  return { name, nominalKv, ...countsOf(feeder), spans: feeder.spans.length }
}

function countsOf(feeder: Feeder) {
  return {
    poles: feeder.poles.length,
    customers: feeder.loads.reduce((sum, load) => sum + load.customers, 0),
  }
}

async function keepNewest(
  transaction: Transaction<Tables>,
  id: string,
  origin: Origin,
  version: number,
): Promise<void> {
  await transaction
    .insertInto('feeders')
    .values({ id, origin, newest_version: version })
    .onConflict((conflict) => conflict.column('id').doUpdateSet({ newest_version: version }))
    .execute()
}

async function insertVersion(
  transaction: Transaction<Tables>,
  feeder: Feeder,
  version: number,
  text: string,
  { actor, at }: Stamp,
): Promise<void> {
  const { id, name, nominalKv, place, coordinates } = feeder.header
  await transaction
    .insertInto('feeder_versions')
    .values({
      ...countsOf(feeder),
      feeder_id: id,
      version,
      name,
      nominal_kv: nominalKv,
      place: place ?? null,
      coordinates,
      feeder: text,
      taken_in_at: at,
      actor_id: actor.id,
      actor_role: actor.role,
    })
    .execute()
}
