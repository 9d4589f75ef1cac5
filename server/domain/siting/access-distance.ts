import { geojsonRbush, lineString, point, pointToLineDistance } from '@turf/turf'
import type { BBox, Feature, LineString } from 'geojson'
import type { Position } from '#domain/feeder/geometry.ts'
import type { Access } from '#domain/feeder/land.ts'

/** Metres in one degree of latitude, near enough to size a search box. */
const M_PER_DEGREE = 111_195
const FIRST_REACH_M = 250
/** Half the way round the Earth: nothing lies farther. */
const LAST_REACH_M = 20_000_000

type Segment = Feature<LineString>
type Index = ReturnType<typeof geojsonRbush<LineString>>

/** Finds the nearest road or track of any pole. */
export interface AccessFinder {
  /** Distance in metres; null where no road or track is recorded. */
  readonly distanceM: (from: Position) => number | null
}

/** Indexes the pieces of roads and tracks; a gate is a point on a way, not a way. */
export function findAccess(access: readonly Access[]): AccessFinder {
  const segments = access.filter((way) => way.kind !== 'gate').flatMap(segmentsOf)
  if (segments.length === 0) return { distanceM: () => null }
  const index = geojsonRbush<LineString>().load(segments)
  return { distanceM: (from) => nearestM(index, from) }
}

function segmentsOf(way: Access): Segment[] {
  return way.path.slice(1).map((end, index) => lineString([way.path[index] ?? end, end]))
}

/** Widens the box until what is found inside cannot be beaten from outside it. */
function nearestM(index: Index, from: Position): number | null {
  for (let reachM = FIRST_REACH_M; reachM <= LAST_REACH_M; reachM *= 4) {
    const found = index.search(boxAround(from, reachM)).features
    const best = Math.min(
      ...found.map((segment) => pointToLineDistance(point(from), segment, { units: 'meters' })),
    )
    if (best <= reachM) return best
  }
  return null
}

function boxAround([lon, lat]: Position, reachM: number): BBox {
  const dLat = reachM / M_PER_DEGREE
  const dLon = dLat / Math.max(0.01, Math.cos((lat * Math.PI) / 180))
  return [lon - dLon, lat - dLat, lon + dLon, lat + dLat]
}
