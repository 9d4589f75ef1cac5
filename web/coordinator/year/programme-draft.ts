import { z } from 'zod'
import {
  type ChangeProgrammeBody,
  KeepProgrammeBody,
  ProgrammeRecord,
} from '#contract/programmes.ts'
import { keptDrafts } from '../../record/kept-drafts.ts'
import type { EditKind } from '../../record/record-edit.tsx'

export const PROGRAMME_STATES = ['draft', 'in force', 'done'] as const

/** What a person types of a programme; the programme itself does not change once it is kept. */
const ProgrammeDraft = z.object({
  name: z.string(),
  note: z.string(),
  state: KeepProgrammeBody.shape.state.unwrap(),
  /** Version that the person started from; null for one that is not kept yet. */
  version: z.number().nullable(),
  base: z.record(z.string(), z.string()).nullable(),
})
export type ProgrammeDraft = z.infer<typeof ProgrammeDraft>

export const programmeDrafts = keptDrafts('crossarm.programme-drafts', ProgrammeDraft)

type Named = Pick<ProgrammeDraft, 'name' | 'note' | 'state'>

/** How name, note and state of a kept programme are edited. */
export const PROGRAMME_HEAD: EditKind<Named, ProgrammeDraft, ChangeProgrammeBody> = {
  subject: 'programme',
  what: 'this programme',
  fields: [
    { key: 'name', label: 'Name' },
    { key: 'note', label: 'Note' },
    { key: 'state', label: 'State' },
  ],
  drafts: programmeDrafts,
  draftSchema: ProgrammeDraft,
  newerSchema: ProgrammeRecord,
  fieldsOf: ({ name, note, state }) => ({ name, note, state }),
  nameOf: ({ name }) => `Name, note and state of ${name}`,
  bodyOf: ({ name, note, state, version }) =>
    name.trim() === '' || version === null ? null : { name: name.trim(), note, state, version },
}
