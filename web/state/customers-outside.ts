import type { NodeVoltage } from '#domain/electrical/solution.ts'
import type { VoltageLimits } from '#domain/feeder/header.ts'
import type { Load } from '#domain/feeder/load.ts'
import { loadMask } from '#domain/network/load-phases.ts'
import { phasesOfMask } from '#domain/units/phases.ts'
import { type Converged, nodesByPole } from './case-solutions.ts'
import type { FeederModel } from './feeder-model.ts'

export interface CustomersOutside {
  readonly low: number
  readonly high: number
}

/** Volts by which a voltage on a limit may miss it through rounding. */
const ON_LIMIT_V = 1e-6

/**
 * Customers of whom a phase of their load is below or above the limits at the primary. A load
 * along a span is judged at both ends of it. Where no customers are recorded, loads are counted.
 */
export function customersOutside(
  model: FeederModel,
  solution: Converged,
  limits: VoltageLimits = model.feeder.header.limits,
): CustomersOutside {
  const nodes = nodesByPole(solution)
  let low = 0
  let high = 0
  for (const load of model.feeder.loads) {
    const weight = model.customers > 0 ? load.customers : 1
    const found = polesOfLoad(model, load).flatMap((pole) => voltsAt(nodes.get(pole), load))
    if (found.some((volts) => volts < limits.lowVolts120 - ON_LIMIT_V)) low += weight
    else if (found.some((volts) => volts > limits.highVolts120 + ON_LIMIT_V)) high += weight
  }
  return { low, high }
}

function polesOfLoad({ spanById }: FeederModel, load: Load): string[] {
  if (load.pole !== undefined) return [load.pole]
  const span = spanById.get(load.span ?? '')
  return span ? [span.from, span.to] : []
}

function voltsAt(node: NodeVoltage | undefined, load: Load): number[] {
  if (!node) return []
  const phases = phasesOfMask(loadMask(load))
  return phases.flatMap((phase) => node.phases[phase]?.volts120 ?? [])
}
