import type { VoltageLimits } from '#domain/feeder/header.ts'
import type { Phase } from '#domain/units/phases.ts'
import type { ShownPhase } from './address.ts'
import { type Converged, nodesByPole } from './case-solutions.ts'
import { marginVolts, shownVoltage } from './shown-voltage.ts'

export interface PoleVoltage {
  readonly pole: string
  readonly phase: Phase
  readonly volts120: number
}

/** Every pole with the voltage that stands for it. */
export function poleVoltages(
  solution: Converged,
  shown: ShownPhase,
  limits: VoltageLimits,
): PoleVoltage[] {
  return [...nodesByPole(solution)].flatMap(([pole, node]) => {
    const found = shownVoltage(node, shown, limits)
    return found ? [{ pole, ...found }] : []
  })
}

/** The pole nearest to a limit or farthest outside; null where the phase reaches none. */
export function worstPole(
  solution: Converged,
  shown: ShownPhase,
  limits: VoltageLimits,
): PoleVoltage | null {
  const all = poleVoltages(solution, shown, limits)
  const margin = ({ volts120 }: PoleVoltage) => marginVolts(volts120, limits)
  return all.reduce<PoleVoltage | null>(
    (worst, found) => (!worst || margin(found) < margin(worst) ? found : worst),
    null,
  )
}
