import { PHASES, type PhaseSet } from '#domain/units/phases.ts'
import type { ConductorSize } from './branch-plan.ts'
import type { LineTypeDraft } from './feeder-draft.ts'

interface Size {
  readonly words: string
  readonly conductor: string
  readonly neutral: string
  readonly ampacityA: number
}

/** Ampacity: Westinghouse T&D Reference Book conductor tables, from memory. */
const SIZES: Readonly<Record<ConductorSize, Size>> = {
  '336': { words: '336.4', conductor: '336.4 26/7 ACSR', neutral: '4/0 6/1 ACSR', ampacityA: 530 },
  '4-0': { words: '4/0', conductor: '4/0 6/1 ACSR', neutral: '1/0 6/1 ACSR', ampacityA: 340 },
  '1-0': { words: '1/0', conductor: '1/0 6/1 ACSR', neutral: '2 6/1 ACSR', ampacityA: 230 },
  '2': { words: 'No. 2', conductor: '2 6/1 ACSR', neutral: '4 6/1 ACSR', ampacityA: 180 },
  '4': { words: 'No. 4', conductor: '4 6/1 ACSR', neutral: '4 6/1 ACSR', ampacityA: 140 },
}

/** Outer phases stand 44 in from the pole on an 8 ft arm; the neutral hangs on the pole below. */
const ARM_REACH_M = 1.12
const ARM_HEIGHT_M = 9.75
const POLE_TOP_M = 10.05
const NEUTRAL_HEIGHT_M = 8.5

export function lineTypeId(size: ConductorSize, phases: PhaseSet): string {
  return `${size}-${phases}`
}

export function lineTypeOf(size: ConductorSize, phases: PhaseSet): LineTypeDraft {
  const { words, conductor, neutral, ampacityA } = SIZES[size]
  const carried = PHASES.filter((phase) => phases.includes(phase))
  return {
    kind: 'geometry',
    id: lineTypeId(size, phases),
    name: `${COUNT_WORDS[carried.length]}, ${words} ACSR, ${phases}`,
    ampacityA,
    citation: 'Invented line; positions as on common wood-pole construction (common practice).',
    positions: [
      ...carried.map((phase, i) => ({ role: phase, ...placeOf(i, carried.length), conductor })),
      { role: 'N' as const, xM: 0.12, heightM: NEUTRAL_HEIGHT_M, conductor: neutral },
    ],
  }
}

const COUNT_WORDS: Readonly<Record<number, string>> = {
  1: 'Single-phase on the pole top',
  2: 'Two-phase on an 8 ft arm',
  3: 'Three-phase on an 8 ft arm',
}

function placeOf(index: number, count: number): { xM: number; heightM: number } {
  if (count === 1) return { xM: 0, heightM: POLE_TOP_M }
  if (count === 2) return { xM: index === 0 ? -ARM_REACH_M : ARM_REACH_M, heightM: ARM_HEIGHT_M }
  return { xM: (index - 1) * ARM_REACH_M, heightM: ARM_HEIGHT_M }
}
