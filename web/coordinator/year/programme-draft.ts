import { z } from 'zod'
import { KeepProgrammeBody, type ProgrammeRecord } from '#contract/programmes.ts'
import { keptDrafts } from '../../record/kept-drafts.ts'
import type { Fields } from '../../record/merge-fields.ts'
import type { RecordField } from '../../record/record-fields.ts'

export const PROGRAMME_STATES = ['draft', 'in force', 'done'] as const

/** What a person types of a programme; the programme itself does not change once it is kept. */
export const ProgrammeDraft = z.object({
  name: z.string(),
  note: z.string(),
  state: KeepProgrammeBody.shape.state.unwrap(),
  /** Version that the person started from; null for one that is not kept yet. */
  version: z.number().nullable(),
  base: z.record(z.string(), z.string()).nullable(),
})
export type ProgrammeDraft = z.infer<typeof ProgrammeDraft>

export const programmeDrafts = keptDrafts('crossarm.programme-drafts', ProgrammeDraft)

export const PROGRAMME_FIELDS: readonly RecordField[] = [
  { key: 'name', label: 'Name' },
  { key: 'note', label: 'Note' },
  { key: 'state', label: 'State' },
]

type Named = Pick<ProgrammeDraft, 'name' | 'note' | 'state'>

export function fieldsOfProgramme({ name, note, state }: Named): Fields {
  return { name, note, state }
}

export function draftOfProgramme(record: ProgrammeRecord): ProgrammeDraft {
  const { name, note, state, version } = record
  return { name, note, state, version, base: fieldsOfProgramme(record) }
}

/** The draft that says what was chosen of two versions, and follows on the newer one. */
export function draftOfChosenProgramme(chosen: Fields, newer: ProgrammeRecord): ProgrammeDraft {
  return ProgrammeDraft.parse({
    ...chosen,
    version: newer.version,
    base: fieldsOfProgramme(newer),
  })
}
