import type { ProgrammeRecord } from '#contract/programmes.ts'
import { useProgrammeChanges } from '../../api/programmes.ts'
import { RecordEdit } from '../../record/record-edit.tsx'
import { PROGRAMME_HEAD } from './programme-draft.ts'
import { ProgrammeFields } from './programme-fields.tsx'

interface Props {
  readonly kept: ProgrammeRecord
  readonly onDone: () => void
}

/** Changes name, note and state of a kept programme. */
export function ProgrammeEdit({ kept, onDone }: Props) {
  const changes = useProgrammeChanges(kept.feederId)
  return (
    <RecordEdit
      kind={PROGRAMME_HEAD}
      record={kept}
      changes={changes}
      className="stack year-form"
      onDone={onDone}
    >
      {(draft, onType) => <ProgrammeFields draft={draft} onType={onType} />}
    </RecordEdit>
  )
}
