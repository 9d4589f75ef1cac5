import type { VoltageLimits } from '#domain/feeder/header.ts'
import type { CaseEffect } from '#domain/siting/site-result.ts'
import { PHASES, type Phase } from '#domain/units/phases.ts'
import { type Converged, nodesByPole } from '../state/case-solutions.ts'
import { customersOutside } from '../state/customers-outside.ts'
import type { FeederModel } from '../state/feeder-model.ts'

interface Station {
  readonly node: string
  readonly phase: Phase
  readonly volts120: number
}

/** What one case looks like, in the form of a siting result, so that the two can be compared. */
export function effectOf(
  model: FeederModel,
  solution: Converged,
  limits: VoltageLimits,
): CaseEffect | null {
  const stations = stationsOf(solution)
  const [first] = stations
  if (!first) return null
  const { low, high } = customersOutside(model, solution, limits)
  return {
    lossKw: solution.totals.lossKw,
    customersOutside: low + high,
    lowest: stations.reduce((a, b) => (b.volts120 < a.volts120 ? b : a), first),
    highest: stations.reduce((a, b) => (b.volts120 > a.volts120 ? b : a), first),
  }
}

function stationsOf(solution: Converged): Station[] {
  return [...nodesByPole(solution)].flatMap(([node, { phases }]) =>
    PHASES.flatMap((phase) => {
      const found = phases[phase]
      return found ? [{ node, phase, volts120: found.volts120 }] : []
    }),
  )
}
