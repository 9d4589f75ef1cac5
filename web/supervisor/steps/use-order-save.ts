import { useState } from 'react'
import { SequenceRecord } from '#contract/jobs.ts'
import { ProblemError } from '#contract/read-answer.ts'
import type { StepSequence } from '#domain/jobs/step-sequence.ts'
import { usePutSequence } from '../../api/sequences.ts'

/** Sets an order of steps; what was typed stays until `onSaved`. */
export function useOrderSave(onSaved: (saved: SequenceRecord) => void) {
  const put = usePutSequence()
  const [newer, setNewer] = useState<SequenceRecord | null>(null)
  const save = (sequence: StepSequence, version: number) =>
    put.mutate(
      { version, sequence },
      { onSuccess: onSaved, onError: (error) => setNewer(newerOf(error)) },
    )
  return {
    save,
    isSaving: put.isPending,
    /** Refused for another reason than a newer version. */
    error: newerOf(put.error) ? null : put.error,
    /** The order as someone else set it meanwhile. */
    newer,
  }
}

function newerOf(error: Error | null): SequenceRecord | null {
  if (!(error instanceof ProblemError)) return null
  return SequenceRecord.safeParse(error.problem.current).data ?? null
}
