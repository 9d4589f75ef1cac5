import { circle } from '@turf/turf'
import type { BirdSettings } from '#domain/avian/bird-settings.ts'
import { nestBuffer } from '#domain/avian/nests/buffer-sets.ts'
import { isDayInSeason } from '#domain/avian/nests/day-in-season.ts'
import type { Programme } from '#domain/avian/programme/programme.ts'
import type { Nest, Protection } from '#domain/feeder/birds.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import type { Position } from '#domain/feeder/geometry.ts'
import type { ListedPole } from '../list/listed-pole.ts'

type Properties = Record<string, string | number | boolean | readonly number[]>
type Collection<Shape extends GeoJSON.Geometry> = GeoJSON.FeatureCollection<Shape, Properties>

/** Corners of the ring that stands for a round buffer. */
const BUFFER_CORNERS = 64
/** Marks of items stand in a row to the right of their pole. */
const ITEM_STEP_PX = 26

/** Poles that are assessed: `pole`, `state`, and `exposure` from 0 to 1. */
export function poleSpots(listed: readonly ListedPole[]): Collection<GeoJSON.Point> {
  return collection(
    listed.flatMap(({ pole, assessment, exposure }) =>
      assessment
        ? [
            spot(pole.at, {
              pole: pole.id,
              state: assessment.state,
              exposure: exposure?.score ?? 0,
            }),
          ]
        : [],
    ),
  )
}

/** One for each pole and state of item: `pole`, `state`, `count`, `offset` (px from the pole). */
export function itemSpots(
  poles: Feeder['poles'],
  items: readonly Protection[],
): Collection<GeoJSON.Point> {
  const counts = new Map<string, Map<string, number>>()
  for (const { pole, state } of items) {
    const own = counts.get(pole) ?? new Map<string, number>()
    counts.set(pole, own.set(state, (own.get(state) ?? 0) + 1))
  }
  return collection(
    poles.flatMap(({ id, at }) =>
      [...(counts.get(id) ?? [])].map(([state, count], index) =>
        spot(at, { pole: id, state, count, offset: [ITEM_STEP_PX * (index + 1), 0] }),
      ),
    ),
  )
}

/** `id`, `status`, `label`. */
export function nestSpots(nests: readonly Nest[]): Collection<GeoJSON.Point> {
  return collection(
    nests.map(({ at, id, status, species }) =>
      spot(at, { id, status, label: `${species} nest, ${status}` }),
    ),
  )
}

/** `id` and whether the day lies `in_season`. */
export function bufferRings(
  nests: readonly Nest[],
  day: string,
  settings: BirdSettings,
): Collection<GeoJSON.Polygon> {
  return collection(
    nests.flatMap((nest) => {
      const { distanceM, from, to } = nestBuffer(nest, settings)
      if (distanceM <= 0) return []
      const properties = { id: nest.id, in_season: isDayInSeason(day, from, to) }
      const ring = circle([...nest.at], distanceM, { units: 'meters', steps: BUFFER_CORNERS })
      return [{ ...ring, properties }]
    }),
  )
}

/** `name`. */
export function habitatAreas({ habitat }: Feeder): Collection<GeoJSON.Polygon> {
  return collection(
    habitat.map(({ area, name }) => ({
      type: 'Feature',
      properties: { name },
      geometry: { type: 'Polygon', coordinates: area },
    })),
  )
}

/** `id`, `cause`, `label`. */
export function findSpots({ incidents }: Feeder): Collection<GeoJSON.Point> {
  return collection(
    incidents.map(({ at, id, cause, species, foundOn }) =>
      spot(at, { id, cause, label: `${species}, ${foundOn}: ${cause}` }),
    ),
  )
}

export interface RoundFeatures {
  /** One for each stop: `pole`, `label` as "2.3", the third pole of the second round. */
  readonly stops: Collection<GeoJSON.Point>
  /** One for each round of two poles or more. */
  readonly ways: Collection<GeoJSON.LineString>
}

/** Rounds in the order of driving; straight from pole to pole, since roads are not known here. */
export function roundFeatures(poles: Feeder['poles'], { rounds }: Programme): RoundFeatures {
  const places = new Map(poles.map(({ id, at }) => [id, at]))
  const stopsOf = rounds.map((round) =>
    round.poles.flatMap((id) => {
      const at = places.get(id)
      return at ? [{ id, at }] : []
    }),
  )
  return {
    stops: collection(
      stopsOf.flatMap((stops, round) =>
        stops.map(({ id, at }, stop) => spot(at, { pole: id, label: `${round + 1}.${stop + 1}` })),
      ),
    ),
    ways: collection(
      stopsOf
        .filter((stops) => stops.length > 1)
        .map((stops) => ({
          type: 'Feature',
          properties: {},
          geometry: { type: 'LineString', coordinates: stops.map(({ at }) => [...at]) },
        })),
    ),
  }
}

function spot(at: Position, properties: Properties): GeoJSON.Feature<GeoJSON.Point, Properties> {
  return { type: 'Feature', properties, geometry: { type: 'Point', coordinates: [...at] } }
}

function collection<Shape extends GeoJSON.Geometry>(
  features: GeoJSON.Feature<Shape, Properties>[],
): Collection<Shape> {
  return { type: 'FeatureCollection', features }
}
