import type { VoltageLimits } from '#domain/feeder/header.ts'
import type { ShownPhase } from '../../state/address.ts'
import { type Converged, flowsBySpan, nodesByPole } from '../../state/case-solutions.ts'
import type { FeederModel } from '../../state/feeder-model.ts'
import { shownVoltage } from '../../state/shown-voltage.ts'
import { classOf, type VoltageClass } from '../voltage-scale.ts'
import type { FeatureStates } from './use-feature-states.ts'

/** Class of a span or pole that the shown phase does not reach, or that has no voltage. */
export const NO_CLASS = -1

export interface VoltageStates {
  readonly spans: FeatureStates
  readonly poles: FeatureStates
}

/**
 * What map features show of a solution. A span takes the voltage of its far end, where its drop
 * is complete, and the current of the shown phase, or of the heaviest.
 */
export function voltageStates(
  model: FeederModel,
  solution: Converged | null,
  phase: ShownPhase,
  scale: readonly VoltageClass[],
): VoltageStates {
  const limits = model.feeder.header.limits
  const classes = solution ? poleClasses(solution, phase, limits, scale) : new Map<string, number>()
  const flows = solution ? flowsBySpan(solution) : null
  const farPole = new Map(model.trace.spans.map((traced) => [traced.span.id, traced.farPole]))
  const stateOf = (pole: string | undefined) => {
    const index = classes.get(pole ?? '') ?? NO_CLASS
    return { class: index, side: scale[index]?.side ?? 'in' }
  }
  return {
    poles: new Map(model.feeder.poles.map(({ id }) => [id, stateOf(id)])),
    spans: new Map(
      model.feeder.spans.map(({ id }) => {
        const current = flows?.get(id)?.current ?? {}
        const amps = Object.entries(current)
          .filter(([name]) => phase === 'worst' || name === phase)
          .map(([, found]) => found.amps)
        return [id, { ...stateOf(farPole.get(id)), amps: Math.max(0, ...amps) }]
      }),
    ),
  }
}

function poleClasses(
  solution: Converged,
  phase: ShownPhase,
  limits: VoltageLimits,
  scale: readonly VoltageClass[],
): Map<string, number> {
  const classes = new Map<string, number>()
  for (const [pole, node] of nodesByPole(solution)) {
    const found = shownVoltage(node, phase, limits)
    if (found) classes.set(pole, scale.indexOf(classOf(scale, found.volts120)))
  }
  return classes
}
