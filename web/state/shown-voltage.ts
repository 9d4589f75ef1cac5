import type { ByPhase, NodeVoltage, PhaseVoltage } from '#domain/electrical/solution.ts'
import type { VoltageLimits } from '#domain/feeder/header.ts'
import { PHASES, type Phase } from '#domain/units/phases.ts'
import type { ShownPhase } from './address.ts'

export interface ShownVoltage {
  readonly phase: Phase
  readonly volts120: number
}

/** Volts to the nearer limit; negative outside. */
export function marginVolts(volts120: number, limits: VoltageLimits): number {
  return Math.min(volts120 - limits.lowVolts120, limits.highVolts120 - volts120)
}

/** The voltage that stands for a node: of the chosen phase, or of the phase nearest to a limit. */
export function shownVoltage(
  node: NodeVoltage,
  shown: ShownPhase,
  limits: VoltageLimits,
): ShownVoltage | null {
  if (shown !== 'worst') return onPhase(node.phases, shown)
  let worst: ShownVoltage | null = null
  for (const phase of PHASES) {
    const found = onPhase(node.phases, phase)
    if (!found) continue
    const isWorse =
      !worst || marginVolts(found.volts120, limits) < marginVolts(worst.volts120, limits)
    if (isWorse) worst = found
  }
  return worst
}

function onPhase(phases: ByPhase<PhaseVoltage>, phase: Phase): ShownVoltage | null {
  const found = phases[phase]
  return found ? { phase, volts120: found.volts120 } : null
}
