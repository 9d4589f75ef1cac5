import { blob, rectangle } from './circle.ts'
import { beside, lineLength, nearestOn, partOf, pointAlong, simplified } from './curve.ts'
import type { Field } from './fields.ts'
import { areaFeature, type LandFeature } from './land-feature.ts'
import { away, headingDeg, type Line, type Point } from './plane.ts'
import { seededRandom } from './seeded-random.ts'
import { EXTENT, RESERVOIR, SEED, STREAMS, SUBSTATION } from './valley.ts'

/** Ground from the bottom of the drawing to its top: later polygons lie on earlier ones. */
export function groundFeatures(
  fields: readonly Field[],
  pit: Point,
  airstrip: Line,
): LandFeature[] {
  return [
    areaFeature(mapFrame(), { kind: 'rangeland' }),
    ...patches('sagebrush', 26, 900, 2_100),
    ...patches('pine', 15, 700, 1_500),
    ...STREAMS.flatMap(({ name, line }) => bottomland(line, name)),
    ...fields.map(({ kind, ring }) => areaFeature(ring, { kind })),
    areaFeature(townLimits(), { kind: 'town' }),
    areaFeature(blob(pit, 210, seededRandom(SEED, 'pit'), { stretch: 1.5, headingDeg: 70 }), {
      kind: 'gravel-pit',
    }),
    areaFeature(airstrip, { kind: 'airstrip' }),
    areaFeature(rectangle(SUBSTATION, 0, 62, 84), { kind: 'substation' }),
  ]
}

function mapFrame(): Point[] {
  const { westM, southM, eastM, northM } = EXTENT
  return [
    [westM, southM],
    [eastM, southM],
    [eastM, northM],
    [westM, northM],
    [westM, southM],
  ]
}

function townLimits(): Point[] {
  return [
    [60, 1_170],
    [1_300, 1_170],
    [1_300, 1_440],
    [1_680, 1_440],
    [1_680, 1_560],
    [1_300, 1_560],
    [1_300, 2_340],
    [60, 2_340],
    [60, 1_170],
  ]
}

/** Uneven patches away from the streams. */
function patches(
  kind: 'sagebrush' | 'pine',
  count: number,
  leastM: number,
  mostM: number,
): LandFeature[] {
  const random = seededRandom(SEED, kind)
  const farEnoughM = kind === 'pine' ? 3_600 : 1_900
  const features: LandFeature[] = []
  for (let tries = 0; features.length < count && tries < 900; tries++) {
    const centre: Point = [
      random.between(EXTENT.westM + 2_600, EXTENT.eastM - 2_600),
      random.between(EXTENT.southM + 2_400, EXTENT.northM - 2_400),
    ]
    const offM = Math.min(...STREAMS.map(({ line }) => nearestOn(line, centre).distanceM))
    const radiusM = random.between(leastM, mostM) / 2
    const shape = { stretch: random.between(1.1, 2), headingDeg: random.between(60, 130) }
    const ring = blob(centre, radiusM, random, shape)
    if (offM > farEnoughM) features.push(areaFeature(ring, { kind }))
  }
  return features
}

/** Trees along the creek: a band of uneven width, in pieces so that each stays simple. */
function bottomland(stream: Line, name: string): LandFeature[] {
  const random = seededRandom(SEED, `bottomland ${name}`)
  const course = simplified(stream, 60)
  const widthM = name.endsWith('Fork') ? 62 : 105
  const features: LandFeature[] = []
  for (let alongM = 0; alongM < lineLength(course) - 900; alongM += random.between(1_500, 2_600)) {
    const piece = partOf(course, alongM, alongM + random.between(1_300, 2_300))
    const middle = pointAlong(piece, lineLength(piece) / 2)
    if (middle[0] > RESERVOIR.headXM - 200 && middle[0] < RESERVOIR.damXM && !name.endsWith('Fork'))
      continue
    features.push(areaFeature(band(piece, widthM, random.between(0, 6)), { kind: 'woodland' }))
  }
  return features
}

function band(piece: Line, widthM: number, phase: number): Point[] {
  const even = evenly(piece, 90)
  const width = (i: number): number => {
    const taper = Math.sin((Math.PI * i) / (even.length - 1)) ** 0.5
    return widthM * taper * (0.75 + 0.3 * Math.sin(i * 0.9 + phase)) + 6
  }
  const sideOf = (sign: number): Point[] =>
    even.map((point, i) => {
      const heading = headingDeg(even[i - 1] ?? point, even[i + 1] ?? point)
      return away(point, heading + 90 * sign, width(i))
    })
  const right = sideOf(1)
  const ring = [...right, ...sideOf(-1).reverse()]
  return [...ring, right[0] ?? [0, 0]]
}

export function evenly(line: Line, stepM: number): Point[] {
  const pieces = Math.max(2, Math.round(lineLength(line) / stepM))
  return Array.from({ length: pieces + 1 }, (_, i) =>
    pointAlong(line, (lineLength(line) * i) / pieces),
  )
}

/** The reservoir: the creek's course, flooded from the dam up to the head of the water. */
export function reservoirRing(): Point[] {
  const [creek] = STREAMS
  if (!creek) throw new Error('Expected the creek to be the first stream.')
  const flooded = simplified(creek.line, 120).filter(
    ([x]) => x >= RESERVOIR.headXM && x <= RESERVOIR.damXM,
  )
  const even = evenly(flooded, 140)
  const width = (i: number): number => {
    const share = i / (even.length - 1)
    return 30 + 400 * share ** 0.8 + 45 * Math.sin(i * 1.1) * share
  }
  const bank = (sideSign: number): Line =>
    even.map((point, i) => {
      const heading = headingDeg(even[i - 1] ?? point, even[i + 1] ?? point)
      return away(point, heading + 90 * sideSign, width(i))
    })
  const right = bank(1)
  return [...right, ...[...bank(-1)].reverse(), right[0] ?? [0, 0]]
}

export function damLine(): Point[] {
  const ring = reservoirRing()
  const half = (ring.length - 1) / 2
  return beside([ring[half - 1] ?? [0, 0], ring[half] ?? [0, 0]], 6)
}
