import { along, type BranchPlan, joining, through, wandering } from './branch-plan.ts'
import { away, type Point } from './plane.ts'
import { MAIN_ROADS, SUBSTATION } from './valley.ts'

const { skillet, kettlebow, farrowGate, anvilCut } = MAIN_ROADS

/** Metres right of the road, seen up the valley: its north side. */
const NORTH_SIDE = -14

/** 24.9 kV up the valley, over the Kettlebow and out along the upper basin; 40 km to the last pole. */
const TRUNK: BranchPlan = {
  series: '',
  route: (start) => [
    start,
    away(start, 0, 70),
    ...along(skillet, [-760, 1_500], [-4_600, 2_900], NORTH_SIDE),
    ...along(skillet, [-4_690, 2_900], [-7_500, 4_100], 13),
    ...along(skillet, [-7_590, 4_150], [-13_980, 6_400], NORTH_SIDE),
    ...along(kettlebow, [-14_150, 6_640], [-14_600, 7_900], NORTH_SIDE),
    [-15_180, 8_720],
    [-16_120, 10_100],
    ...along(kettlebow, [-16_900, 11_500], [-17_880, 13_200], 13),
    ...along(farrowGate, [-18_100, 13_480], [-21_900, 14_650], NORTH_SIDE),
    [-22_650, 15_150],
    [-24_700, 15_560],
    ...along(farrowGate, [-25_500, 15_720], [-29_900, 16_760], NORTH_SIDE),
    ...along(farrowGate, [-30_000, 16_770], [-33_600, 12_400], 13),
  ],
  phases: 'ABC',
  conductors: [
    { fromKm: 0, size: '336' },
    { fromKm: 3.2, size: '4-0' },
    { fromKm: 8.4, size: '1-0' },
    { fromKm: 22, size: '2' },
  ],
  spanM: 93,
  customers: {
    homes: 126,
    ranches: 26,
    stockWells: 8,
    special: [
      {
        name: 'Hob Corner store and grange',
        customerClass: 'commercial',
        kw: 48,
        powerFactor: 0.93,
        at: 0.55,
      },
      {
        name: 'Upper basin school',
        customerClass: 'commercial',
        kw: 60,
        powerFactor: 0.95,
        at: 0.72,
      },
      {
        name: 'Upper basin hay cubing plant',
        customerClass: 'commercial',
        kw: 340,
        powerFactor: 0.87,
        at: 0.83,
      },
    ],
  },
}

const single = (
  series: string,
  km: number,
  phases: 'A' | 'B' | 'C',
  headingDeg: number,
  lengthM: number,
  name: string | null,
  customers: BranchPlan['customers'],
): BranchPlan => ({
  series,
  tap: { series: '', km },
  route: wandering(headingDeg, lengthM, 16),
  phases,
  conductors: [{ fromKm: 0, size: lengthM > 2_000 ? '2' : '4' }],
  spanM: 101,
  ...(name && { way: { name, kind: 'lane', leftM: 11 } as const }),
  customers,
})

const pumps = (
  series: string,
  km: number,
  headingDeg: number,
  lengthM: number,
  name: string,
  pumpsKw: readonly number[],
  homes = 0,
): BranchPlan => ({
  series,
  tap: { series: '', km },
  route: wandering(headingDeg, lengthM, 9),
  phases: 'ABC',
  conductors: [{ fromKm: 0, size: '2' }],
  spanM: 96,
  way: { name, kind: 'track', leftM: -10 },
  customers: { pumpsKw, homes },
})

const LATERALS = (tieEnd: Point): readonly BranchPlan[] => [
  single('1', 1.7, 'A', 4, 2_300, 'Hob Lane', { homes: 16, ranches: 1 }),
  pumps('2', 3.1, 172, 1_150, 'Dipper Lane', [75, 56, 45], 2),
  single('3', 4.4, 'B', 350, 3_300, 'Cinderpot Road', { homes: 8, ranches: 4, stockWells: 2 }),
  pumps('4', 6.1, 158, 1_150, 'Lower Ditch Lane', [93, 75], 1),
  {
    ...single('5', 7.4, 'A', 345, 2_500, 'Gravelpan Lane', { homes: 6, ranches: 3, stockWells: 2 }),
    phases: 'AC',
  },
  {
    series: '6',
    tap: { series: '', km: 9.1 },
    route: wandering(352, 1_650, 8),
    phases: 'ABC',
    conductors: [{ fromKm: 0, size: '1-0' }],
    spanM: 88,
    way: { name: 'Riddle Pit Road', kind: 'lane', leftM: 12 },
    customers: {
      homes: 2,
      special: [
        {
          name: 'Riddle gravel pit, crusher and screens',
          customerClass: 'gravel-pit',
          kw: 420,
          powerFactor: 0.84,
          at: 1,
        },
      ],
    },
  },
  pumps('7', 10.3, 165, 1_250, 'Middle Ditch Lane', [93, 75, 56]),
  {
    series: '8',
    tap: { series: '', km: 11.85 },
    route: (start) => [
      ...joining(along(anvilCut, [-11_300, 5_300], [-11_060, 2_050], 12))(start),
      tieEnd,
    ],
    phases: 'ABC',
    conductors: [{ fromKm: 0, size: '1-0' }],
    spanM: 88,
    customers: { homes: 7, ranches: 2, pumpsKw: [75, 56] },
    isTie: true,
  },
  {
    series: '9',
    tap: { series: '', km: 15.0 },
    route: joining(along(skillet, [-14_250, 6_500], [-20_500, 8_250], -14)),
    phases: 'ABC',
    conductors: [{ fromKm: 0, size: '2' }],
    spanM: 99,
    customers: {
      homes: 14,
      ranches: 4,
      pumpsKw: [93, 75],
      special: [
        {
          name: 'Wexaw Reservoir headworks',
          customerClass: 'commercial',
          kw: 40,
          powerFactor: 0.88,
          at: 1,
        },
      ],
    },
  },
  single('10', 18.0, 'C', 75, 2_300, 'Long Spoon Lane', { homes: 4, ranches: 4, stockWells: 2 }),
  {
    series: '11',
    tap: { series: '', km: 20.9 },
    route: through([
      [-17_000, 12_320],
      [-16_560, 12_560],
    ]),
    phases: 'ABC',
    conductors: [{ fromKm: 0, size: '1-0' }],
    spanM: 88,
    way: { name: 'Collector Lane', kind: 'track', leftM: -12 },
    customers: {},
  },
  single('12', 22.6, 'A', 352, 2_000, 'Quern Road', { homes: 9, ranches: 3, stockWells: 1 }),
  pumps('13', 23.7, 188, 1_700, 'Fork Ditch Lane', [112, 112, 93, 93], 3),
  pumps('14', 25.9, 172, 2_000, 'Sluice Lane', [112, 112, 93, 75], 3),
  single('15', 27.9, 'B', 2, 2_200, 'Tallow Road', { homes: 5, ranches: 4, stockWells: 2 }),
  pumps('16', 30.2, 168, 1_900, 'Bellwether Lane', [112, 93, 93, 75], 3),
  single('17', 31.6, 'C', 348, 1_900, 'Larkspike Lane', { homes: 5, ranches: 3, stockWells: 1 }),
  pumps('18', 33.3, 185, 1_500, 'Upper Ditch Lane', [112, 93, 75], 3),
  single('19', 35.4, 'C', 330, 2_000, 'Tongs Lane', { homes: 6, ranches: 3, stockWells: 2 }),
  {
    ...single('20', 1.6, 'B', 60, 1_100, null, { ranches: 1, stockWells: 2 }),
    tap: { series: '3', km: 1.6 },
  },
  single('21', 38.3, 'C', 285, 1_700, 'Nearmost Lane', { homes: 4, ranches: 3, stockWells: 1 }),
]

/** `tieEnd` is where the last pole of the other feeder stands. */
export function skilletPlan(tieEnd: Point): readonly BranchPlan[] {
  return [TRUNK, ...LATERALS(tieEnd)]
}

export const SKILLET_START: Point = [SUBSTATION[0] - 25, SUBSTATION[1] + 28]
