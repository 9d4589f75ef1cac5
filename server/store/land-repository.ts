import type { Kysely } from 'kysely'
import type { LandCollection, LandStore } from '../services/ports.ts'
import type { Tables } from './tables.ts'

export function landRepository(db: Kysely<Tables>): LandStore {
  return {
    find: (placeId) => findLayers(db, placeId),
    keep: (placeId, layers) => replaceLayers(db, placeId, layers),
  }
}

async function findLayers(
  db: Kysely<Tables>,
  placeId: string,
): Promise<Record<string, LandCollection> | null> {
  const rows = await db
    .selectFrom('land_layers')
    .select(['name', 'collection'])
    .where('place_id', '=', placeId)
    .orderBy('name')
    .execute()
  if (rows.length === 0) return null
  return Object.fromEntries(
    rows.map(({ name, collection }) => [name, JSON.parse(collection) as LandCollection]),
  )
}

function replaceLayers(
  db: Kysely<Tables>,
  placeId: string,
  layers: Readonly<Record<string, LandCollection>>,
): Promise<void> {
  return db.transaction().execute(async (transaction) => {
    await transaction.deleteFrom('land_layers').where('place_id', '=', placeId).execute()
    for (const [name, collection] of Object.entries(layers)) {
      await transaction
        .insertInto('land_layers')
        .values({ place_id: placeId, name, collection: JSON.stringify(collection) })
        .execute()
    }
  })
}
