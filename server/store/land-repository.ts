import type { LandCollection, LandStore } from '../services/ports.ts'
import type { Database } from './database.ts'

export function landRepository(db: Database): LandStore {
  return {
    find: (placeId) => findLayers(db, placeId),
    keep: (placeId, layers) => replaceLayers(db, placeId, layers),
  }
}

async function findLayers(
  db: Database,
  placeId: string,
): Promise<Record<string, LandCollection> | null> {
  const rows = await db.query
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
  db: Database,
  placeId: string,
  layers: Readonly<Record<string, LandCollection>>,
): Promise<void> {
  return db.transaction(async (transaction) => {
    await transaction.deleteFrom('land_layers').where('place_id', '=', placeId).execute()
    for (const [name, collection] of Object.entries(layers)) {
      await transaction
        .insertInto('land_layers')
        .values({ place_id: placeId, name, collection: JSON.stringify(collection) })
        .execute()
    }
  })
}
