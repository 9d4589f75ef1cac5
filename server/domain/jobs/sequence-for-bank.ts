import type { Regulator } from '../feeder/equipment.ts'
import type { Step, StepSequence } from './step-sequence.ts'

/**
 * The order of steps with those alone that fit a bank: without the steps for a bank that has a
 * neutral-side switch where it has none, and the other way round. Where no bank stands neither
 * sort of step has anything to be done at.
 */
export function sequenceForBank(
  sequence: StepSequence,
  bank: Pick<Regulator, 'neutralSide'> | undefined,
): StepSequence {
  const steps = sequence.steps.filter(({ onlyWith }) => fits(onlyWith, bank))
  return steps.length === sequence.steps.length ? sequence : { ...sequence, steps }
}

function fits(
  onlyWith: Step['onlyWith'],
  bank: Pick<Regulator, 'neutralSide'> | undefined,
): boolean {
  if (onlyWith === undefined) return true
  if (bank === undefined) return false
  return (onlyWith === 'a neutral-side switch') === (bank.neutralSide === 'switched')
}
