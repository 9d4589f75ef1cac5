import { meandered, nearestOn, roughened, smoothThrough } from './curve.ts'
import type { Line, Point } from './plane.ts'
import { seededRandom } from './seeded-random.ts'

/** The whole demo hangs on this one number. */
export const SEED = 20_417

export const PLACE = { id: 'brindlemark', name: 'Brindlemark Valley' } as const

/** Corners of the base map: west, south, east, north, metres. */
export const EXTENT = { westM: -36_500, southM: -7_500, eastM: 6_500, northM: 20_500 } as const

/** Where the two feeders leave the substation. */
export const SUBSTATION: Point = [-600, 1_420]

export type RoadKind = 'highway' | 'county' | 'street' | 'lane' | 'track'

export interface Road {
  readonly id: string
  readonly name: string
  readonly kind: RoadKind
  readonly line: Line
}

export interface Stream {
  readonly name: string
  readonly kind: 'creek' | 'fork'
  readonly line: Line
}

/** Control points of the creek's course, upstream to downstream. */
const WEXAW: Line = [
  [-36_500, 9_800],
  [-32_000, 9_300],
  [-28_500, 8_700],
  [-25_800, 8_000],
  [-23_500, 8_500],
  [-21_000, 7_200],
  [-18_000, 6_300],
  [-15_000, 4_700],
  [-12_500, 4_250],
  [-10_000, 2_550],
  [-7_000, 2_200],
  [-4_500, 850],
  [-2_000, 450],
  [800, -700],
  [3_500, -900],
  [6_500, -2_100],
]

const NETTLEPIN: Line = [
  [-36_500, 16_300],
  [-34_200, 15_200],
  [-32_900, 14_500],
  [-31_000, 14_100],
  [-28_500, 13_500],
  [-26_000, 12_300],
  [-23_500, 12_100],
  [-21_500, 10_800],
  [-19_700, 9_500],
  [-18_400, 7_900],
  [-17_300, 6_050],
]

/** Where the dam stands on Wexaw Creek and how far the water reaches up the valley. */
export const RESERVOIR = { damXM: -21_300, headXM: -24_300 } as const

const wexawLine = meandered(smoothThrough(WEXAW, 200), seededRandom(SEED, 'wexaw'), 95, 430)
const nettlepinLine = meandered(
  smoothThrough(NETTLEPIN, 200),
  seededRandom(SEED, 'nettlepin'),
  70,
  330,
)

export const STREAMS: readonly Stream[] = [
  { name: 'Wexaw Creek', kind: 'creek', line: wexawLine },
  { name: 'Nettlepin Fork', kind: 'fork', line: reaching(nettlepinLine, wexawLine) },
]

/** The fork ends in the creek. */
function reaching(fork: Line, creek: Line): Line {
  const mouth = fork.at(-1)
  return mouth ? [...fork.slice(0, -1), nearestOn(creek, mouth).point] : fork
}

const SKILLET: Line = [
  [-1_200, 1_540],
  [-2_200, 1_900],
  [-3_800, 2_650],
  [-5_200, 3_000],
  [-6_800, 3_900],
  [-8_300, 4_250],
  [-9_800, 4_500],
  [-11_300, 5_450],
  [-12_700, 5_950],
  [-14_100, 6_450],
  [-15_600, 6_950],
  [-17_100, 7_500],
  [-19_000, 8_050],
  [-20_700, 8_250],
  [-21_600, 7_950],
]

const KETTLEBOW: Line = [
  [-14_100, 6_450],
  [-14_350, 7_400],
  [-14_900, 8_300],
  [-15_100, 9_500],
  [-15_800, 10_700],
  [-16_900, 11_500],
  [-17_650, 12_400],
  [-17_900, 13_400],
]

const FARROW_GATE: Line = [
  [-17_900, 13_400],
  [-19_200, 13_850],
  [-20_800, 14_050],
  [-22_300, 14_900],
  [-23_400, 14_750],
  [-24_500, 14_850],
  [-25_400, 15_700],
  [-27_000, 15_800],
  [-28_600, 16_600],
  [-30_200, 16_750],
  [-31_500, 16_000],
  [-32_300, 14_900],
  [-32_800, 13_400],
  [-33_600, 12_400],
]

const CANDLEWICK: Line = [
  [1_640, 1_490],
  [1_640, 800],
  [1_700, 0],
  [1_520, -900],
  [1_450, -1_800],
  [1_100, -2_700],
  [700, -3_600],
]

const NINEBARK: Line = [
  [3_400, -4_150],
  [2_000, -3_950],
  [700, -3_600],
  [-900, -3_250],
  [-2_400, -2_900],
  [-3_900, -3_000],
  [-5_300, -2_500],
  [-6_700, -1_750],
  [-8_000, -1_500],
  [-9_300, -700],
  [-10_400, 500],
  [-11_050, 1_800],
]

const ANVIL_CUT: Line = [
  [-11_300, 5_450],
  [-11_250, 4_500],
  [-11_100, 3_400],
  [-11_050, 1_800],
]

const HIGHWAY: Line = [
  [2_900, -7_500],
  [2_600, -4_000],
  [2_150, -1_200],
  [1_950, 1_490],
  [2_050, 4_500],
  [2_900, 8_500],
  [2_500, 13_000],
  [3_200, 17_500],
  [3_000, 20_500],
]

export const STREET_EAST_XM = [110, 490, 870, 1_250] as const
export const STREET_NORTH_YM = [1_220, 1_760, 2_030] as const
const STREET_NAMES = ['Ferrule Street', 'Bodkin Street', 'Thimble Street', 'Skein Street'] as const
const CROSS_STREET_NAMES = ['Treadle Avenue', 'Spindle Avenue', 'Warp Avenue'] as const

const curved = (id: string, name: string, kind: RoadKind, controls: Line): Road => ({
  id,
  name,
  kind,
  line: roughened(smoothThrough(controls), seededRandom(SEED, id), 38),
})

export const MAIN_STREET_NORTH_YM = 1_490

const MAIN_STREET: Line = [
  [1_950, MAIN_STREET_NORTH_YM],
  [-300, MAIN_STREET_NORTH_YM],
  [-700, 1_500],
]

/** Roads that stand whether or not a line follows them; lanes and tracks come with the laterals. */
export const MAIN_ROADS = {
  skillet: {
    id: 'skillet-road',
    name: 'Skillet Road',
    kind: 'county',
    line: [...MAIN_STREET, ...curved('skillet-road', '', 'county', SKILLET).line],
  },
  kettlebow: curved('kettlebow-road', 'Kettlebow Road', 'county', KETTLEBOW),
  farrowGate: curved('farrow-gate-road', 'Farrow Gate Road', 'county', FARROW_GATE),
  candlewick: curved('candlewick-road', 'Candlewick Road', 'county', CANDLEWICK),
  ninebark: curved('ninebark-road', 'Ninebark Road', 'county', NINEBARK),
  anvilCut: curved('anvil-cut-road', 'Anvil Cut Road', 'county', ANVIL_CUT),
  highway: curved('brindlemark-highway', 'Brindlemark Highway', 'highway', HIGHWAY),
} as const satisfies Record<string, Road>

export const STREETS: readonly Road[] = [
  ...STREET_EAST_XM.map((xM, i) => ({
    id: `street-${i + 1}`,
    name: STREET_NAMES[i] ?? '',
    kind: 'street' as const,
    line: [
      [xM, 1_220],
      [xM, 1_490],
      [xM, 1_760],
      [xM, 2_300],
    ] satisfies Line,
  })),
  ...STREET_NORTH_YM.map((yM, i) => ({
    id: `avenue-${i + 1}`,
    name: CROSS_STREET_NAMES[i] ?? '',
    kind: 'street' as const,
    line: [
      [STREET_EAST_XM[0], yM],
      [STREET_EAST_XM[3], yM],
    ] satisfies Line,
  })),
]
