import { rectangle } from './circle.ts'
import { isInside, touches } from './crossing.ts'
import { nearestOn } from './curve.ts'
import type { Service } from './customers.ts'
import { areaFeature, type LandFeature } from './land-feature.ts'
import { findPieces } from './near-pieces.ts'
import { away, distance, headingDeg, type Line, type Point } from './plane.ts'
import { type SeededRandom, seededRandom } from './seeded-random.ts'
import { SEED, STREET_EAST_XM, STREET_NORTH_YM } from './valley.ts'

/** Houses in rows along the streets, yards at the ranches, sheds at the larger customers. */
export function buildingFeatures(
  services: readonly Service[],
  roads: readonly Line[],
  lines: readonly Line[],
  emptyLand: readonly Line[],
): LandFeature[] {
  const random = seededRandom(SEED, 'buildings')
  const built: Line[] = []
  const features: LandFeature[] = []
  const piecesNear = findPieces([...roads, ...lines])
  const add = (ring: Line, kind: string): void => {
    const corner = ring[0] ?? [0, 0]
    const isClear =
      !emptyLand.some((area) => isInside(area, corner)) &&
      !piecesNear(corner, BUILDING_REACH_M).some((piece) => touches(ring, piece, CLEARANCE_M)) &&
      !built.some((other) => isNear(other, corner) && touches(ring, other, 3))
    if (!isClear) return
    built.push(ring)
    features.push(areaFeature(ring, { kind }))
  }
  for (const { ring, kind } of townHouses(random)) add(ring, kind)
  for (const service of services) {
    for (const { ring, kind } of yard(service, roads, random)) add(ring, kind)
  }
  return features
}

/** No two corners of a building are farther apart, clearance included. */
const BUILDING_REACH_M = 50
/** Least distance from a road's centre and from the line. */
const CLEARANCE_M = 7

function isNear(other: Line, corner: Point): boolean {
  return distance(other[0] ?? corner, corner) < 2 * BUILDING_REACH_M
}

interface Building {
  readonly ring: Line
  readonly kind: 'house' | 'shop' | 'barn' | 'shed' | 'pump-house'
}

const ROW_STEP_M = 27
const SETBACK_M = 22

function townHouses(random: SeededRandom): Building[] {
  const houses: Building[] = []
  for (const xM of STREET_EAST_XM) {
    for (const side of [-1, 1]) {
      for (let yM = 1_245; yM < 2_290; yM += ROW_STEP_M * random.between(0.95, 1.35)) {
        const isMainStreet = Math.abs(yM - 1_490) < 75
        const centre: Point = [xM + side * SETBACK_M + random.between(-2, 2), yM]
        houses.push({
          ring: rectangle(
            centre,
            random.between(-2, 2),
            random.between(9, 14),
            random.between(8, 12),
          ),
          kind: isMainStreet ? 'shop' : 'house',
        })
      }
    }
  }
  for (let xM = 130; xM < 1_260; xM += random.between(24, 46)) {
    for (const side of [-1, 1]) {
      const ring = rectangle(
        [xM, 1_490 + side * 30],
        90,
        random.between(12, 22),
        random.between(12, 24),
      )
      houses.push({ ring, kind: 'shop' })
    }
  }
  for (const yM of STREET_NORTH_YM) {
    for (let xM = 165; xM < 1_215; xM += ROW_STEP_M * random.between(1, 1.7)) {
      for (const side of [-1, 1]) {
        const centre: Point = [xM, yM + side * SETBACK_M + random.between(-2, 2)]
        const ring = rectangle(centre, 90, random.between(9, 14), random.between(8, 12))
        houses.push({ ring, kind: 'house' })
      }
    }
  }
  return houses
}

/** Buildings of one customer stand back from the pole, on the side away from the road. */
function yard(
  { pole, customerClass, customers }: Service,
  roads: readonly Line[],
  random: SeededRandom,
): Building[] {
  const isInTown = pole.at[0] > 60 && pole.at[0] < 1_300 && pole.at[1] > 1_170 && pole.at[1] < 2_340
  if (isInTown) return []
  const roadside = roads
    .map((line) => nearestOn(line, pole.at))
    .reduce((best, next) => (next.distanceM < best.distanceM ? next : best))
  const outward = headingDeg(roadside.point, pole.at)
  const at = (forwardM: number, sideM: number): Point =>
    away(away(pole.at, outward, forwardM), outward + 90, sideM)
  const block = (
    kind: Building['kind'],
    forwardM: number,
    sideM: number,
    alongM: number,
    acrossM: number,
  ): Building => ({
    kind,
    ring: rectangle(at(forwardM, sideM), outward + random.between(-12, 12), alongM, acrossM),
  })
  if (customerClass === 'residential') {
    return Array.from({ length: customers }, (_, i) =>
      block(
        'house',
        random.between(34, 70),
        i * 34 - 10 + random.between(-6, 6),
        random.between(10, 16),
        random.between(8, 12),
      ),
    )
  }
  if (customerClass === 'ranch') {
    return [
      block('house', 70, -12, 15, 11),
      block('barn', 112, 26, 32, 15),
      block('shed', 88, 62, 22, 9),
      ...(random.chance(0.6) ? [block('shed', 140, -22, 26, 8)] : []),
    ]
  }
  if (customerClass === 'irrigation') return [block('pump-house', 14, 6, 4, 4)]
  if (customerClass === 'stock-well') return []
  return [block('shop', 46, 0, 30, 18), block('shed', 84, 30, 24, 12)]
}
