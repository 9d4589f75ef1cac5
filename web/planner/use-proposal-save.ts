import { useState } from 'react'
import { SavedProposal } from '#contract/proposals.ts'
import { ProblemError } from '#contract/read-answer.ts'
import { useProposalChanges } from '../api/proposals.ts'
import type { ProposalDraft } from './proposal-draft.ts'

/** Saves name and note of a kept proposal; what was typed stays until `onSaved`. */
export function useProposalSave({ id, feederId }: SavedProposal, onSaved: () => void) {
  const { change, restore } = useProposalChanges(feederId)
  const [newer, setNewer] = useState<SavedProposal | null>(null)
  const save = ({ name, note, version }: ProposalDraft) =>
    change.mutate(
      { id, body: { name: name.trim(), note, version } },
      { onSuccess: onSaved, onError: (error) => setNewer(newerOf(error)) },
    )
  return {
    save,
    restore,
    isSaving: change.isPending,
    /** Refused for another reason than a newer version. */
    error: newerOf(change.error) ? null : change.error,
    /** The record as someone else left it meanwhile. */
    newer,
  }
}

function newerOf(error: Error | null): SavedProposal | null {
  if (!(error instanceof ProblemError)) return null
  return SavedProposal.safeParse(error.problem.current).data ?? null
}
