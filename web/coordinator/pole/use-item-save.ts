import { useState } from 'react'
import { ProtectionRecord } from '#contract/protections.ts'
import { ProblemError } from '#contract/read-answer.ts'
import { useProtectionChanges } from '../../api/protections.ts'
import { bodyOfDraft, type DraftFaults, type ItemDraft } from './item-draft.ts'

export interface ItemSave {
  readonly save: (draft: ItemDraft) => void
  readonly isSaving: boolean
  readonly faults: DraftFaults
  /** Refused for another reason than a newer version. */
  readonly error: Error | null
  /** The record as someone else left it meanwhile. */
  readonly newer: ProtectionRecord | null
}

/** Saves a draft as a new item or as a change of one; what was typed stays until `onSaved`. */
export function useItemSave(
  feederId: string,
  pole: string,
  itemId: string | null,
  onSaved: () => void,
): ItemSave {
  const { add, change } = useProtectionChanges(feederId)
  const [faults, setFaults] = useState<DraftFaults>({})
  const [newer, setNewer] = useState<ProtectionRecord | null>(null)
  const write = itemId === null ? add : change
  const onError = (error: Error) => setNewer(newerRecordOf(error))
  const save = (draft: ItemDraft) => {
    const checked = bodyOfDraft(draft, pole)
    setFaults('faults' in checked ? checked.faults : {})
    if ('faults' in checked) return
    if (itemId === null || draft.version === null) {
      add.mutate(checked.body, { onSuccess: onSaved })
      return
    }
    const body = { ...checked.body, version: draft.version }
    change.mutate({ id: itemId, body }, { onSuccess: onSaved, onError })
  }
  const error = newerRecordOf(write.error) ? null : write.error
  return { save, isSaving: write.isPending, faults, error, newer }
}

function newerRecordOf(error: Error | null): ProtectionRecord | null {
  if (!(error instanceof ProblemError)) return null
  return ProtectionRecord.safeParse(error.problem.current).data ?? null
}
