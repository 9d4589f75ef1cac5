import { circle } from '@turf/turf'
import type { BirdPole } from '#domain/avian/pole-urgency.ts'
import type { Nest } from '#domain/feeder/birds.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import type { Position } from '#domain/feeder/geometry.ts'
import { isMonthInSeason } from '#domain/feeder/season.ts'

type Properties = Record<string, string | number | boolean | readonly number[]>
type Collection<Shape extends GeoJSON.Geometry> = GeoJSON.FeatureCollection<Shape, Properties>

export interface BirdLayers {
  /** `pole`, `verdict`. */
  readonly poles: Collection<GeoJSON.Point>
  /** One for each pole and state of item: `pole`, `state`, `count`, `offset` (px from the pole). */
  readonly items: Collection<GeoJSON.Point>
  /** `id`, `status`, `in_season`, `label`. */
  readonly nests: Collection<GeoJSON.Point>
  /** `id`, `in_season`. */
  readonly buffers: Collection<GeoJSON.Polygon>
  /** `name`. */
  readonly habitat: Collection<GeoJSON.Polygon>
  /** `id`, `cause`, `label`. */
  readonly incidents: Collection<GeoJSON.Point>
}

/** Corners of the ring that stands for a round buffer. */
const BUFFER_CORNERS = 64

/** Marks of items stand in a row to the right of their pole. */
const ITEM_STEP_PX = 26

/** What the coordinator's map draws, as plain features. */
export function birdLayers(feeder: Feeder, poles: readonly BirdPole[], month: number): BirdLayers {
  const isInSeason = (nest: Nest): boolean => isMonthInSeason(month, nest.seasonFrom, nest.seasonTo)
  return {
    poles: collection(
      poles.map(({ pole, separation }) =>
        spot(pole.at, { pole: pole.id, verdict: separation.verdict }),
      ),
    ),
    items: collection(poles.flatMap(itemSpots)),
    nests: collection(
      feeder.nests.map((nest) =>
        spot(nest.at, {
          id: nest.id,
          status: nest.status,
          in_season: isInSeason(nest),
          label: `${nest.species} nest, ${nest.status}`,
        }),
      ),
    ),
    buffers: collection(
      feeder.nests
        .filter(({ bufferM }) => bufferM > 0)
        .map((nest) => ({
          ...circle(nest.at, nest.bufferM, { units: 'meters', steps: BUFFER_CORNERS }),
          properties: { id: nest.id, in_season: isInSeason(nest) },
        })),
    ),
    habitat: collection(
      feeder.habitat.map(({ area, name }) => ({
        type: 'Feature',
        properties: { name },
        geometry: { type: 'Polygon', coordinates: area },
      })),
    ),
    incidents: collection(
      feeder.incidents.map(({ at, id, cause, species, foundOn }) =>
        spot(at, { id, cause, label: `${species}, ${foundOn}: ${cause}` }),
      ),
    ),
  }
}

function itemSpots({ pole, items }: BirdPole): GeoJSON.Feature<GeoJSON.Point, Properties>[] {
  const counts = new Map<string, number>()
  for (const { state } of items) counts.set(state, (counts.get(state) ?? 0) + 1)
  return [...counts].map(([state, count], index) =>
    spot(pole.at, { pole: pole.id, state, count, offset: [ITEM_STEP_PX * (index + 1), 0] }),
  )
}

function spot(at: Position, properties: Properties): GeoJSON.Feature<GeoJSON.Point, Properties> {
  return { type: 'Feature', properties, geometry: { type: 'Point', coordinates: [...at] } }
}

function collection<Shape extends GeoJSON.Geometry>(
  features: GeoJSON.Feature<Shape, Properties>[],
): Collection<Shape> {
  return { type: 'FeatureCollection', features }
}
