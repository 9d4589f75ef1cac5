import { ChoiceField } from '../pole/choice-field.tsx'
import { TextField } from '../pole/text-field.tsx'
import { PROGRAMME_STATES, type ProgrammeDraft } from './programme-draft.ts'

interface Props {
  readonly draft: ProgrammeDraft
  readonly onType: (change: Partial<ProgrammeDraft>) => void
}

/** Under what a programme is kept. */
export function ProgrammeFields({ draft, onType }: Props) {
  return (
    <>
      <TextField
        label="Name"
        fault={draft.name.trim() === '' ? 'Give it a name to find it by.' : null}
        value={draft.name}
        onType={(name) => onType({ name })}
      />
      <TextField label="Note" isLong value={draft.note} onType={(note) => onType({ note })} />
      <ChoiceField
        label="State"
        options={PROGRAMME_STATES}
        value={draft.state}
        onChoose={(state) => onType({ state })}
      />
    </>
  )
}
