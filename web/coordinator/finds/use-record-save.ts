import type { UseMutationResult } from '@tanstack/react-query'
import { useState } from 'react'
import type { z } from 'zod'
import { ProblemError } from '#contract/read-answer.ts'
import type { Fields } from '../../record/merge-fields.ts'
import type { Checked, Faults } from './find-body.ts'
import type { RecordDraft } from './record-draft.ts'

/** Writing a kind of record: by the hooks of its rows. */
export interface Changes<Body, Kept> {
  readonly add: UseMutationResult<Kept, Error, Body>
  readonly change: UseMutationResult<Kept, Error, { id: string; body: Body & { version: number } }>
}

interface Options<Body, Kept> {
  readonly changes: Changes<Body, Kept>
  /** Null to add one. */
  readonly id: string | null
  readonly schema: z.ZodType<Kept>
  readonly check: (typed: Fields) => Checked<Body>
  readonly onSaved: (kept: Kept) => void
}

export interface RecordSave<Kept> {
  readonly save: (draft: RecordDraft) => void
  readonly isSaving: boolean
  readonly faults: Faults
  /** Refused for another reason than a newer version. */
  readonly error: Error | null
  /** The record as someone else left it meanwhile. */
  readonly newer: Kept | null
}

/** Saves a draft as a new record or as a change of one; what was typed stays until `onSaved`. */
export function useRecordSave<Body, Kept>(options: Options<Body, Kept>): RecordSave<Kept> {
  const { changes, id, schema, check, onSaved } = options
  const [faults, setFaults] = useState<Faults>({})
  const [newer, setNewer] = useState<Kept | null>(null)
  const newerOf = (error: Error | null): Kept | null => {
    if (!(error instanceof ProblemError)) return null
    return schema.safeParse(error.problem.current).data ?? null
  }
  const save = (draft: RecordDraft) => {
    const checked = check(draft.fields)
    setFaults('faults' in checked ? checked.faults : {})
    if ('faults' in checked) return
    if (id === null || draft.version === null) {
      changes.add.mutate(checked.body, { onSuccess: onSaved })
      return
    }
    changes.change.mutate(
      { id, body: { ...checked.body, version: draft.version } },
      { onSuccess: onSaved, onError: (error) => setNewer(newerOf(error)) },
    )
  }
  const write = id === null ? changes.add : changes.change
  const error = newerOf(write.error) ? null : write.error
  return { save, isSaving: write.isPending, faults, error, newer }
}
