export type Exposure = 'phase to ground' | 'phase to phase'

interface Row {
  /** Upper end, kilovolts. */
  readonly toKv: number
  readonly name: string
  readonly distances: Readonly<Record<Exposure, Distance>>
  readonly sureness: 'seen in a secondary source' | 'from memory'
}

interface Distance {
  readonly distanceM: number
  readonly distanceFt: number
}

const row = (
  toKv: number,
  name: string,
  [groundFt, groundM]: readonly [number, number],
  [phaseFt, phaseM]: readonly [number, number],
  sureness: Row['sureness'],
): Row => ({
  toKv,
  name,
  distances: {
    'phase to ground': { distanceFt: groundFt, distanceM: groundM },
    'phase to phase': { distanceFt: phaseFt, distanceM: phaseM },
  },
  sureness,
})

/** Below it, contact is avoided and no distance is given; same table, from memory. */
const LOWEST_KV = 0.3

/**
 * 29 CFR 1910.269 (2014), Table R-6: alternative minimum approach distances for 72.5 kV and less.
 * Kilovolts are phase to phase; on a single-phase system they are those to ground.
 */
const TABLE_R6: readonly Row[] = [
  row(0.75, '0.301 to 0.750 kV', [1.09, 0.33], [1.09, 0.33], 'from memory'),
  row(5, '0.751 to 5.0 kV', [2.07, 0.63], [2.07, 0.63], 'from memory'),
  row(15, '5.1 to 15.0 kV', [2.14, 0.65], [2.24, 0.68], 'seen in a secondary source'),
  row(36, '15.1 to 36.0 kV', [2.53, 0.77], [2.92, 0.89], 'seen in a secondary source'),
  row(46, '36.1 to 46.0 kV', [2.76, 0.84], [3.22, 0.98], 'from memory'),
  row(72.5, '46.1 to 72.5 kV', [3.29, 1.0], [3.94, 1.2], 'from memory'),
]

/**
 * Upper end of a range of altitude, metres, and its factor: 29 CFR 1910.269 (2014), Table R-5, from
 * memory. The same factors were seen in UFC 3-560-01 (2006, change 1), table 3-2; its altitudes are
 * taken as upper ends, which is the safe way to read them.
 */
const TABLE_R5: readonly (readonly [toM: number, factor: number])[] = [
  [900, 1.0],
  [1200, 1.02],
  [1500, 1.05],
  [1800, 1.08],
  [2100, 1.11],
  [2400, 1.14],
  [2700, 1.17],
  [3000, 1.2],
  [3600, 1.25],
  [4200, 1.3],
  [4800, 1.35],
  [5400, 1.39],
  [6000, 1.44],
]

/** Factor for the height above sea level, metres; null above the table. */
export function altitudeFactor(elevationM: number): number | null {
  return TABLE_R5.find(([toM]) => elevationM <= toM)?.[1] ?? null
}

export interface ApproachAt {
  /** Of the system, kilovolts from phase to phase; on a single-phase system those to ground. */
  readonly systemKv: number
  readonly exposure: Exposure
  /** Above sea level, metres; left out where unknown. */
  readonly elevationM?: number | undefined
  /** In place of that of the table: the utility's own, or for heights that the table does not reach. */
  readonly factor?: number | undefined
}

export type ApproachDistance =
  | ({
      readonly status: 'known'
      /** "5.1 to 15.0 kV". */
      readonly row: string
      readonly factor: number
      readonly source: string
      /** What was taken for granted; empty where nothing was. */
      readonly notes: readonly string[]
    } & Distance)
  | { readonly status: 'not known'; readonly why: string }

const notKnown = (why: string): ApproachDistance => ({ status: 'not known', why })

/** Up, never down, to the two decimals of the table; noise of the product left aside. */
const roundedUp = (value: number) => Math.ceil(value * 100 - 1e-6) / 100

/**
 * Closest that a qualified person comes to an exposed energized part, bare-handed or with anything
 * conductive. The utility's own distances govern where they are larger.
 */
export function approachDistance(at: ApproachAt): ApproachDistance {
  const found = TABLE_R6.find(({ toKv }) => at.systemKv <= toKv)
  if (!(at.systemKv > LOWEST_KV) || !found) {
    return notKnown(
      `The table reaches from 0.301 to 72.5 kV; ${at.systemKv} kV needs the utility's own rule.`,
    )
  }
  const factor = factorAt(at)
  if (factor === null) {
    return notKnown(
      `The table of factors ends at 6000 m; a pole at ${at.elevationM} m needs the utility's own factor.`,
    )
  }
  const { distanceM, distanceFt } = found.distances[at.exposure]
  return {
    status: 'known',
    row: found.name,
    factor,
    distanceM: roundedUp(distanceM * factor),
    distanceFt: roundedUp(distanceFt * factor),
    source: `29 CFR 1910.269 (2014), Table R-6, ${found.sureness}; check it against the regulation`,
    notes: notesOf(at, factor),
  }
}

function factorAt({ elevationM, factor }: ApproachAt): number | null {
  if (factor !== undefined) return factor
  return elevationM === undefined ? 1 : altitudeFactor(elevationM)
}

function notesOf(at: ApproachAt, factor: number): string[] {
  if (at.factor !== undefined) return [`Factor ${factor} for altitude as entered.`]
  if (at.elevationM === undefined) {
    return [
      'The height above sea level is not known: above 900 m (3000 ft) the distance is larger.',
    ]
  }
  return factor > 1
    ? [
        `Factor ${factor} for ${at.elevationM.toFixed(0)} m above sea level (Table R-5, from memory).`,
      ]
    : []
}
