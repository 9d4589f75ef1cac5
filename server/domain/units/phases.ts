/** Phases of a three-phase line and the sets of them that a span, a load or a bank can have. */

export const PHASES = ['A', 'B', 'C'] as const
export type Phase = (typeof PHASES)[number]

/** Line-to-line pairs in the order of delta-connected load columns: A–B, B–C, C–A. */
export const PHASE_PAIRS = ['AB', 'BC', 'CA'] as const
export type PhasePair = (typeof PHASE_PAIRS)[number]

/** Every set of phases, written in the order A, B, C. */
export const PHASE_SETS = ['A', 'B', 'C', 'AB', 'AC', 'BC', 'ABC'] as const
export type PhaseSet = (typeof PHASE_SETS)[number]

/** Bits 1, 2 and 4 stand for A, B and C. */
export type PhaseMask = number

export function phaseMask(phases: PhaseSet): PhaseMask {
  let mask = 0
  PHASES.forEach((phase, index) => {
    if (phases.includes(phase)) mask |= 1 << index
  })
  return mask
}

export function phasesOfMask(mask: PhaseMask): Phase[] {
  return PHASES.filter((_, index) => mask & (1 << index))
}

/** Throws for an empty mask: a line without phases is a bug, not an input. */
export function phaseSetOfMask(mask: PhaseMask): PhaseSet {
  const name = phasesOfMask(mask).join('')
  const found = PHASE_SETS.find((set) => set === name)
  if (!found) throw new Error(`Expected a mask of 1 to 7, got ${mask}.`)
  return found
}

export function includesPhases(outer: PhaseSet, inner: PhaseSet): boolean {
  return (phaseMask(inner) & ~phaseMask(outer)) === 0
}

/** Phase indices (0 to 2) of the two ends of a line-to-line pair. */
export const PAIR_ENDS: Readonly<Record<PhasePair, readonly [number, number]>> = {
  AB: [0, 1],
  BC: [1, 2],
  CA: [2, 0],
}
