import { useState } from 'react'
import { PoleTopRecord } from '#contract/pole-tops.ts'
import { ProblemError } from '#contract/read-answer.ts'
import { usePoleTopChanges } from '../../api/pole-tops.ts'
import { bodyOfPoleTop, type PoleTopDraft, type PoleTopFaults } from './pole-top-draft.ts'

export interface PoleTopSave {
  readonly save: (draft: PoleTopDraft) => void
  readonly isSaving: boolean
  readonly faults: PoleTopFaults
  /** Refused for another reason than a newer version. */
  readonly error: Error | null
  /** The choice as someone else left it meanwhile. */
  readonly newer: PoleTopRecord | null
}

/** Saves what was chosen of a pole top; what was typed stays until `onSaved`. */
export function usePoleTopSave(feederId: string, poleId: string, onSaved: () => void): PoleTopSave {
  const { choose } = usePoleTopChanges(feederId)
  const [faults, setFaults] = useState<PoleTopFaults>({})
  const [newer, setNewer] = useState<PoleTopRecord | null>(null)
  const save = (draft: PoleTopDraft) => {
    const checked = bodyOfPoleTop(draft)
    setFaults('faults' in checked ? checked.faults : {})
    if ('faults' in checked) return
    choose.mutate(
      { poleId, body: checked.body },
      { onSuccess: onSaved, onError: (error) => setNewer(newerRecordOf(error)) },
    )
  }
  const error = newerRecordOf(choose.error) ? null : choose.error
  return { save, isSaving: choose.isPending, faults, error, newer }
}

function newerRecordOf(error: Error | null): PoleTopRecord | null {
  if (!(error instanceof ProblemError)) return null
  return PoleTopRecord.safeParse(error.problem.current).data ?? null
}
