import { PAIR_ENDS, PHASE_PAIRS, PHASES, type PhaseMask } from '#domain/units/phases.ts'
import type { Load } from '../feeder/load.ts'

/** Part of a load between one phase and the neutral, or between two phases; indices 0 to 2. */
export interface LoadPart {
  readonly fromPhase: number
  /** −1 for the neutral. */
  readonly toPhase: number
  readonly kw: number
  readonly kvar: number
}

/** The parts of a load that draw anything. */
export function loadParts(load: Load): LoadPart[] {
  const parts =
    load.connection === 'wye'
      ? PHASES.map((phase, fromPhase) => ({
          fromPhase,
          toPhase: -1,
          kw: load[`kw${phase}`],
          kvar: load[`kvar${phase}`],
        }))
      : PHASE_PAIRS.map((pair) => {
          const name = pair === 'AB' ? 'Ab' : pair === 'BC' ? 'Bc' : 'Ca'
          return {
            fromPhase: PAIR_ENDS[pair][0],
            toPhase: PAIR_ENDS[pair][1],
            kw: load[`kw${name}`],
            kvar: load[`kvar${name}`],
          }
        })
  return parts.filter(({ kw, kvar }) => kw !== 0 || kvar !== 0)
}

/** Phases that the load touches. */
export function loadMask(load: Load): PhaseMask {
  return loadParts(load).reduce(
    (mask, { fromPhase, toPhase }) => mask | (1 << fromPhase) | (toPhase < 0 ? 0 : 1 << toPhase),
    0,
  )
}
