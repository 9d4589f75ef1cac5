import { circle, rectangle } from './circle.ts'
import { ringsMeet, touches } from './crossing.ts'
import { lineLength, nearestOn, pointAlong } from './curve.ts'
import { away, distance, type Line, type Point } from './plane.ts'
import { seededRandom } from './seeded-random.ts'
import { RESERVOIR, SEED, STREAMS } from './valley.ts'

export interface Field {
  readonly kind: 'pivot' | 'irrigated' | 'hay-meadow'
  readonly ring: Line
  readonly centre: Point
}

const LARGEST_FIELD_M = 900

/** Pivot circles beside the pumps, then fields along the streams, clear of roads and of each other. */
export function fieldsOf(pumps: readonly Point[], obstacles: readonly Line[]): Field[] {
  const fields: Field[] = []
  const isFree = (ring: Line, centre: Point): boolean =>
    obstacles.every((line) => !touches(ring, nearby(line, centre), 14)) &&
    fields.every((other) => !ringsMeet(ring, other.ring, 12))
  for (const pump of pumps) {
    const pivot = pivotBeside(pump, isFree)
    if (pivot) fields.push(pivot)
  }
  for (const field of streamFields()) {
    if (isFree(field.ring, field.centre)) fields.push(field)
  }
  return fields
}

/** Only the part of a line near a field can touch it. */
function nearby(line: Line, centre: Point): Line {
  const near = line.map((point) => distance(point, centre) < LARGEST_FIELD_M)
  return line.filter((_, i) => near[i - 1] || near[i] || near[i + 1])
}

const PIVOT_RADII_M = [400, 320, 230] as const

function pivotBeside(pump: Point, isFree: (ring: Line, centre: Point) => boolean): Field | null {
  for (const radiusM of PIVOT_RADII_M) {
    for (let headingDeg = 0; headingDeg < 360; headingDeg += 15) {
      const centre = away(pump, headingDeg, radiusM + 24)
      const ring = circle(centre, radiusM)
      if (isFree(ring, centre)) return { kind: 'pivot', ring, centre }
    }
  }
  return null
}

function streamFields(): Field[] {
  const random = seededRandom(SEED, 'fields')
  return STREAMS.flatMap(({ line }) => {
    const fields: Field[] = []
    for (let alongM = 600; alongM < lineLength(line); alongM += random.between(330, 620)) {
      for (const side of [-1, 1]) {
        const { point, headingDeg } = nearestOn(line, pointAlong(line, alongM))
        const acrossM = random.between(180, 420)
        const centre = away(
          point,
          headingDeg + 90 * side,
          190 + acrossM / 2 + random.between(0, 260),
        )
        const ring = rectangle(
          centre,
          headingDeg + random.between(-8, 8),
          random.between(260, 520),
          acrossM,
        )
        const isReservoir = centre[0] < RESERVOIR.damXM + 500 && centre[0] > RESERVOIR.headXM - 600
        const isDrawn = random.chance(0.72)
        const kind = random.chance(0.6) ? 'irrigated' : 'hay-meadow'
        if (isDrawn && !(isReservoir && centre[1] < 10_000)) fields.push({ kind, ring, centre })
      }
    }
    return fields
  })
}
