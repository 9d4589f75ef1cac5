import type { Regulator } from '../feeder/equipment.ts'
import type { Step, StepSequence } from './step-sequence.ts'

type NeutralSide = Pick<Regulator, 'neutralSide'>

/**
 * The order of steps with those alone that fit a bank: without the steps for a bank that has a
 * neutral-side switch where it has none, and the other way round. Where no bank stands neither
 * sort of step has anything to be done at.
 *
 * @param bank as it is to stand
 * @param standing the units that are changed out, where they have another neutral side: the steps
 * before the new ones are set are done at these
 */
export function sequenceForBank(
  sequence: StepSequence,
  bank: NeutralSide | undefined,
  standing: NeutralSide | undefined = bank,
): StepSequence {
  const isSetAt = settingPlace(sequence.steps)
  const steps = sequence.steps.filter(({ onlyWith }, place) =>
    fits(onlyWith, place < isSetAt ? standing : bank),
  )
  return steps.length === sequence.steps.length ? sequence : { ...sequence, steps }
}

/** The place of the step that sets a unit; behind the last one where none does. */
export function settingPlace(steps: StepSequence['steps']): number {
  const place = steps.findIndex(({ action }) => action === 'set the unit')
  return place < 0 ? steps.length : place
}

export function isSwitched(bank: NeutralSide | undefined): boolean {
  return bank?.neutralSide === 'switched'
}

function fits(onlyWith: Step['onlyWith'], bank: NeutralSide | undefined): boolean {
  if (onlyWith === undefined) return true
  if (bank === undefined) return false
  return (onlyWith === 'a neutral-side switch') === isSwitched(bank)
}
