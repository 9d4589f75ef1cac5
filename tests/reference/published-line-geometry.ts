import type { ConductorPosition } from '#domain/feeder/line-type.ts'
import { M_PER_FT } from '#domain/units/length.ts'

/**
 * Spacings of the published IEEE test feeders (common data of the 13-, 34- and 4-node feeders; from
 * memory of the document): horizontal offset and height in feet, phases in the order in which a
 * configuration lists its phasing, then the neutral.
 */
const SPACINGS = {
  '500': {
    phases: [
      [0, 28],
      [2.5, 28],
      [7, 28],
    ],
    neutral: [4, 24],
  },
  '505': {
    phases: [
      [0, 28],
      [7, 28],
    ],
    neutral: [4, 24],
  },
  '510': { phases: [[0.5, 29]], neutral: [0, 24] },
} as const

type Spacing = keyof typeof SPACINGS
type Phasing = readonly ('A' | 'B' | 'C')[]

/** Configurations of overhead line: which phase hangs where, and the conductors. */
export const PUBLISHED_CONFIGURATIONS: readonly {
  readonly feeder: 'ieee13' | 'ieee34'
  readonly id: string
  readonly spacing: Spacing
  readonly phasing: Phasing
  readonly phaseConductor: string
  readonly neutralConductor: string
}[] = [
  row('ieee13', '601', '500', ['B', 'A', 'C'], '556.5 26/7 ACSR', '4/0 6/1 ACSR'),
  row('ieee13', '602', '500', ['C', 'A', 'B'], '4/0 6/1 ACSR', '4/0 6/1 ACSR'),
  row('ieee13', '603', '505', ['C', 'B'], '1/0 6/1 ACSR', '1/0 6/1 ACSR'),
  row('ieee13', '604', '505', ['A', 'C'], '1/0 6/1 ACSR', '1/0 6/1 ACSR'),
  row('ieee13', '605', '510', ['C'], '1/0 6/1 ACSR', '1/0 6/1 ACSR'),
  row('ieee34', '300', '500', ['B', 'A', 'C'], '1/0 6/1 ACSR', '1/0 6/1 ACSR'),
  row('ieee34', '301', '500', ['B', 'A', 'C'], '2 6/1 ACSR', '2 6/1 ACSR'),
  row('ieee34', '302', '510', ['A'], '4 6/1 ACSR', '4 6/1 ACSR'),
  row('ieee34', '303', '510', ['B'], '4 6/1 ACSR', '4 6/1 ACSR'),
  row('ieee34', '304', '510', ['B'], '2 6/1 ACSR', '2 6/1 ACSR'),
]

function row(
  feeder: 'ieee13' | 'ieee34',
  id: string,
  spacing: Spacing,
  phasing: Phasing,
  phaseConductor: string,
  neutralConductor: string,
) {
  return { feeder, id, spacing, phasing, phaseConductor, neutralConductor }
}

export interface Wires {
  readonly phasing: Phasing
  readonly phaseConductor: string
  readonly neutralConductor: string | null
}

/**
 * The 34-node susceptances agree to the last digit with wires 1 ft above the spacing's heights,
 * the 13-node ones with the heights themselves (found by deriving both; impedances do not depend
 * on height).
 */
const RAISED_FT = { ieee13: 0, ieee34: 1 } as const

export function positionsOfConfiguration(
  configuration: (typeof PUBLISHED_CONFIGURATIONS)[number],
): ConductorPosition[] {
  const { phases, neutral } = SPACINGS[configuration.spacing]
  const raised = ([x, height]: readonly [number, number]) =>
    [x, height + RAISED_FT[configuration.feeder]] as const
  return positionsFt(phases.map(raised), raised(neutral), configuration)
}

/** Positions in metres from pairs in feet; the neutral is left out where it has no conductor. */
export function positionsFt(
  phasesFt: readonly (readonly [number, number])[],
  neutralFt: readonly [number, number],
  { phasing, phaseConductor, neutralConductor }: Wires,
): ConductorPosition[] {
  const at = ([xFt, heightFt]: readonly [number, number]) => ({
    xM: xFt * M_PER_FT,
    heightM: heightFt * M_PER_FT,
  })
  const phases = phasing.map((role, index) => ({
    role,
    ...at(phasesFt[index]!),
    conductor: phaseConductor,
  }))
  if (neutralConductor === null) return phases
  return [...phases, { role: 'N', ...at(neutralFt), conductor: neutralConductor }]
}
