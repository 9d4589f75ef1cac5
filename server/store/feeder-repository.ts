import type { Transaction } from 'kysely'
import type { Feeder } from '#domain/feeder/feeder.ts'
import type { FeederStore, FeederSummary, Origin, Stamp, StoredFeeder } from '../services/ports.ts'
import type { Database } from './database.ts'
import { appendHistory } from './history.ts'
import { addUnknownProtections } from './protection-repository.ts'
import type { Tables } from './tables.ts'

export function feederRepository(db: Database): FeederStore {
  return {
    count: async () => {
      const row = await db.query
        .selectFrom('feeders')
        .select((select) => select.fn.countAll<number>().as('feeders'))
        .executeTakeFirstOrThrow()
      return Number(row.feeders)
    },
    list: () => listNewest(db),
    find: (feederId, version) => findVersion(db, feederId, version),
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
  feederId: string,
  version: number | undefined,
): Promise<StoredFeeder | null> {
  const row = await db.query
    .selectFrom('feeders')
    .innerJoin('feeder_versions', 'feeder_versions.feeder_id', 'feeders.id')
    .select(['origin', 'version', 'feeder'])
    .where('feeders.id', '=', feederId)
    .where(({ eb, ref }) => eb('version', '=', version ?? ref('newest_version')))
    .executeTakeFirst()
  if (!row) return null
  return {
    feeder: JSON.parse(row.feeder) as Feeder,
    version: row.version,
    origin: row.origin as Origin,
  }
}

async function addVersion(
  db: Database,
  transaction: Transaction<Tables>,
  feeder: Feeder,
  origin: Origin,
  stamp: Stamp,
): Promise<number> {
  const { id } = feeder.header
  const before = await newestVersions(db)
    .select(['version', 'name', 'poles', 'customers'])
    .where('feeders.id', '=', id)
    .executeTakeFirst()
  const after = { version: (before?.version ?? 0) + 1, ...countsOf(feeder) }
  await keepNewest(transaction, id, origin, after.version)
  await insertVersion(transaction, feeder, after, stamp)
  const entry = { subject: 'feeder', feederId: id, subjectId: id } as const
  await appendHistory(
    transaction,
    { ...entry, version: after.version, before: before ?? null, after },
    stamp,
  )
  await addUnknownProtections(db, feeder, stamp)
  return after.version
}

function countsOf(feeder: Feeder) {
  return {
    name: feeder.header.name,
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
  counts: ReturnType<typeof countsOf> & { version: number },
  { actor, at }: Stamp,
): Promise<void> {
  const { id, nominalKv, place, coordinates } = feeder.header
  await transaction
    .insertInto('feeder_versions')
    .values({
      ...counts,
      feeder_id: id,
      nominal_kv: nominalKv,
      place: place ?? null,
      coordinates,
      feeder: JSON.stringify(feeder),
      taken_in_at: at,
      actor_id: actor.id,
      actor_role: actor.role,
    })
    .execute()
}
