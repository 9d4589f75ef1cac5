import type { SequenceRecord } from '#contract/jobs.ts'
import type { StepSequence } from '#domain/jobs/step-sequence.ts'
import { listed } from '../../state/format.ts'
import { workTaking } from './work-taking.ts'

interface Props {
  readonly sequence: StepSequence
  /** All that are in use. */
  readonly records: readonly SequenceRecord[]
  /** It is not set so yet. */
  readonly isToCome?: boolean
}

/** Which jobs take an order of steps: it may be there and still stand behind another. */
export function TakenLine({ sequence, records, isToCome = false }: Props) {
  const others = records.filter((record) => record.sequence.id !== sequence.id)
  const taken = workTaking(sequence.id, [...others, { sequence }])
  const when = isToCome ? 'Set so, jobs' : 'Jobs'
  if (taken.length > 0) {
    return (
      <p>
        {when} that are drafted from then on take it for: {listed(taken)}.
      </p>
    )
  }
  return (
    <p role="status">
      {isToCome ? 'Set so, no job takes it' : 'No job takes it'}: for each of its kinds another
      order is for fewer kinds, or for as many and comes first by its id. Take kinds of job away
      from it or from the other.
    </p>
  )
}
