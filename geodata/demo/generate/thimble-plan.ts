import { along, type BranchPlan, through, wandering } from './branch-plan.ts'
import { away, type Point } from './plane.ts'
import { MAIN_ROADS, STREET_EAST_XM, SUBSTATION } from './valley.ts'

const { skillet, candlewick, ninebark } = MAIN_ROADS

/** 12.47 kV through the town, over the creek and up the south side to the tie; 20 km. */
const TRUNK: BranchPlan = {
  series: '',
  route: (start) => [
    start,
    away(start, 90, 75),
    ...along(skillet, [-300, 1_490], [1_560, 1_490], 11),
    ...along(candlewick, [1_640, 1_380], [760, -3_480], -12),
    ...along(ninebark, [560, -3_570], [-11_050, 1_800], -13),
  ],
  phases: 'ABC',
  conductors: [
    { fromKm: 0, size: '336' },
    { fromKm: 2.4, size: '4-0' },
    { fromKm: 5, size: '1-0' },
    { fromKm: 9.2, size: '2' },
  ],
  spanM: 86,
  customers: {
    homes: 72,
    ranches: 13,
    shops: 12,
    stockWells: 4,
    special: [
      { name: 'Pellory school', customerClass: 'commercial', kw: 130, powerFactor: 0.94, at: 0.05 },
      {
        name: 'Pellory feed mill',
        customerClass: 'commercial',
        kw: 140,
        powerFactor: 0.86,
        at: 0.12,
      },
    ],
  },
}

/** A town street north of Main Street. */
const street = (
  series: string,
  eastXM: number,
  phases: BranchPlan['phases'],
  homes: number,
  shops: number,
): BranchPlan => ({
  series,
  tap: { series: '', km: (eastXM - SUBSTATION[0]) / 1_000 + 0.01 },
  route: (start) => [start, [eastXM + 9, start[1] + 78], [eastXM + 9, 2_290]],
  phases,
  conductors: [{ fromKm: 0, size: phases === 'ABC' ? '1-0' : '2' }],
  spanM: 68,
  customers: { homes, shops, homesPerTransformer: 5 },
})

const single = (
  series: string,
  km: number,
  phases: BranchPlan['phases'],
  headingDeg: number,
  lengthM: number,
  name: string | null,
  customers: BranchPlan['customers'],
): BranchPlan => ({
  series,
  tap: { series: '', km },
  route: wandering(headingDeg, lengthM, 15),
  phases,
  conductors: [{ fromKm: 0, size: '4' }],
  spanM: 99,
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
): BranchPlan => ({
  ...single(series, km, 'ABC', headingDeg, lengthM, null, { pumpsKw, homes: 1 }),
  conductors: [{ fromKm: 0, size: '2' }],
  way: { name, kind: 'track', leftM: 10 },
})

export const THIMBLE_PLAN: readonly BranchPlan[] = [
  TRUNK,
  street('1', STREET_EAST_XM[0], 'A', 40, 1),
  street('2', STREET_EAST_XM[1], 'ABC', 38, 6),
  street('3', STREET_EAST_XM[2], 'C', 46, 2),
  street('4', STREET_EAST_XM[3], 'B', 34, 1),
  {
    ...single('5', 2.05, 'B', 182, 450, null, { homes: 24, homesPerTransformer: 4 }),
    tap: { series: '', km: 0.95 },
    route: through([
      [400, 1_380],
      [405, 1_060],
    ]),
    spanM: 68,
  },
  single('6', 5.7, 'AB', 98, 2_100, 'Bobbin Lane', { homes: 12, ranches: 3, stockWells: 1 }),
  {
    ...single('7', 7.6, 'B', 100, 2_300, null, { homes: 9, ranches: 3, stockWells: 2 }),
    route: (start) => [start, ...along(ninebark, [800, -3_615], [3_000, -4_080], 13).slice(3)],
  },
  pumps('8', 9.2, 12, 1_600, 'Shuttle Lane', [56, 45, 37]),
  single('9', 9.7, 'C', 190, 1_900, 'Distaff Road', { homes: 6, ranches: 4, stockWells: 2 }),
  pumps('10', 11.6, 8, 1_900, 'Heddle Lane', [75, 56, 37]),
  single('11', 12.7, 'C', 195, 2_200, 'Carding Road', { homes: 7, ranches: 4, stockWells: 2 }),
  pumps('12', 14.1, 5, 1_500, 'Bodger Lane', [112, 93, 56]),
  single('13', 15.4, 'B', 215, 1_700, 'Tenter Lane', { homes: 6, ranches: 3, stockWells: 1 }),
  single('14', 17.0, 'A', 240, 1_700, 'Nap Hollow Road', { homes: 6, ranches: 3, stockWells: 2 }),
]

export const THIMBLE_START: Point = [SUBSTATION[0] + 22, SUBSTATION[1] + 28]
