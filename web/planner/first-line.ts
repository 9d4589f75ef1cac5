import type { Converged } from '../state/case-solutions.ts'
import { customersOutside } from '../state/customers-outside.ts'
import type { FeederModel } from '../state/feeder-model.ts'
import { counted } from '../state/format.ts'
import { effectOf } from './effect.ts'

/** The planner's first sentences about a case: who is outside limits, how far, and where. */
export function firstLine(model: FeederModel, solution: Converged): string {
  const { name, limits, cases } = model.feeder.header
  const caseName = cases.find(({ id }) => id === solution.caseId)?.name ?? solution.caseId
  const effect = effectOf(model, solution, limits)
  if (!effect) return `${name} carries no voltage in the case “${caseName}”.`
  const { low, high } = customersOutside(model, solution)
  const { lowest, highest } = effect
  const point = model.feeder.header.coordinates === 'schematic' ? 'node' : 'pole'
  const one = model.customers > 0 ? 'customer' : 'load'
  const at = ({ volts120, node, phase }: typeof lowest) =>
    `${volts120.toFixed(1)} V at ${point} ${node}, ${phase} phase`
  const where = `on ${name}, “${caseName}”`
  const sentences: string[] = []
  if (low > 0) {
    sentences.push(
      `${counted(low, one)} below ${limits.lowVolts120} V ${where}: lowest ${at(lowest)}.`,
    )
  }
  if (high > 0) {
    sentences.push(
      `${counted(high, one)} above ${limits.highVolts120} V ${where}: highest ${at(highest)}.`,
    )
  }
  if (sentences.length > 0) return sentences.join(' ')
  return `Every ${one} is inside ${limits.lowVolts120} to ${limits.highVolts120} V ${where}: lowest ${at(lowest)}, highest ${at(highest)}.`
}
