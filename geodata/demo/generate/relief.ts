import { nearestOn, simplified } from './curve.ts'
import { away, type Line, type Point } from './plane.ts'
import { STREAMS } from './valley.ts'

/** Streams without their small loops: a valley does not follow each of them. */
const VALLEYS: readonly Line[] = STREAMS.map(({ line }) => simplified(line, 140))

/** Floor of the valley where the creek leaves the map, and its fall toward there. */
const FLOOR_M = 1_372
const FALL_PER_M = 0.0046
const EAST_EDGE_XM = 6_500
/** Height of the ridges above the floor, and how far from the creek they begin to level out. */
const RIDGE_M = 330
const REACH_M = 4_300

/** Long swells of the ground: wavelength and amplitude in metres, direction, phase. */
const SWELLS = [
  { lengthM: 7_900, heightM: 62, headingDeg: 28, phase: 0.4 },
  { lengthM: 5_300, heightM: 40, headingDeg: 101, phase: 2.1 },
  { lengthM: 3_100, heightM: 24, headingDeg: 63, phase: 4.0 },
  { lengthM: 2_300, heightM: 15, headingDeg: 152, phase: 1.3 },
  { lengthM: 1_450, heightM: 8, headingDeg: 12, phase: 5.2 },
] as const

/** Height above the sea of the invented ground, metres. Smooth everywhere. */
export function heightM(at: Point): number {
  const offM = distanceToValleyM(at)
  const rise = 1 - Math.exp(-((offM / REACH_M) ** 1.5))
  const floor = FLOOR_M + (EAST_EDGE_XM - at[0]) * FALL_PER_M
  return floor + RIDGE_M * rise + swell(at) * Math.min(1, offM / 1_500)
}

/** Distance to the nearest stream, blended where two are equally near, so that ridges are round. */
function distanceToValleyM(at: Point): number {
  const sharpness = 900
  const sum = VALLEYS.reduce(
    (total, line) => total + Math.exp(-nearestOn(line, at).distanceM / sharpness),
    0,
  )
  return Math.max(0, -sharpness * Math.log(sum))
}

function swell(at: Point): number {
  return SWELLS.reduce((total, { lengthM, heightM: amplitudeM, headingDeg, phase }) => {
    const [alongX, alongY] = away([0, 0], headingDeg, 1)
    const alongM = at[0] * alongX + at[1] * alongY
    return total + amplitudeM * Math.sin((2 * Math.PI * alongM) / lengthM + phase)
  }, 0)
}
