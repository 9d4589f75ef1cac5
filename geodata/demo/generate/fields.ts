import { circle, rectangle } from './circle.ts'
import { ringsMeet, touches } from './crossing.ts'
import { lineLength, nearestOn, pointAlong, simplified } from './curve.ts'
import { findPieces } from './near-pieces.ts'
import { away, distance, type Line, type Point } from './plane.ts'
import { seededRandom } from './seeded-random.ts'
import { RESERVOIR, SEED, STREAMS } from './valley.ts'

export interface Field {
  readonly kind: 'pivot' | 'irrigated' | 'hay-meadow'
  readonly ring: Line
  readonly centre: Point
}

/** No corner of a field lies farther from its centre, clearance included. */
const FIELD_REACH_M = 430

/** Pivot circles beside the pumps, then fields along the streams, clear of roads and of each other. */
export function fieldsOf(pumps: readonly Point[], obstacles: readonly Line[]): Field[] {
  const fields: Field[] = []
  const piecesNear = findPieces(obstacles)
  const isFree = (ring: Line, centre: Point): boolean =>
    piecesNear(centre, FIELD_REACH_M).every((piece) => !touches(ring, piece, 14)) &&
    fields.every(
      (other) =>
        distance(centre, other.centre) > 2 * FIELD_REACH_M || !ringsMeet(ring, other.ring, 12),
    )
  for (const pump of pumps) {
    const pivot = pivotBeside(pump, isFree)
    if (pivot) fields.push(pivot)
  }
  for (const field of streamFields()) {
    if (isFree(field.ring, field.centre)) fields.push(field)
  }
  return fields
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

/** Fields follow the stream side by side, with a lane or a fallow strip between some of them. */
function streamFields(): Field[] {
  return STREAMS.flatMap(({ name, line }) => {
    const course = simplified(line, 130)
    const lengthM = lineLength(course)
    return [-1, 1].flatMap((side) => {
      const random = seededRandom(SEED, `fields ${name} ${side}`)
      const fields: Field[] = []
      for (let alongM = 500; alongM < lengthM - 900; ) {
        const fieldM = random.between(280, 620)
        const acrossM = random.between(200, 430)
        const { point, headingDeg } = nearestOn(course, pointAlong(course, alongM + fieldM / 2))
        const setback = 205 + acrossM / 2 + random.between(0, 60)
        const centre = away(point, headingDeg + 90 * side, setback)
        const ring = rectangle(centre, headingDeg, fieldM, acrossM)
        const kind = random.chance(0.6) ? 'irrigated' : 'hay-meadow'
        if (!isFlooded(centre)) fields.push({ kind, ring, centre })
        alongM +=
          fieldM + (random.chance(0.35) ? random.between(250, 1_500) : random.between(14, 40))
      }
      return fields
    })
  })
}

function isFlooded([xM, yM]: Point): boolean {
  return xM < RESERVOIR.damXM + 500 && xM > RESERVOIR.headXM - 600 && yM < 10_000
}
