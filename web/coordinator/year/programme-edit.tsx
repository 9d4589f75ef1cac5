import { useState } from 'react'
import { ProgrammeRecord } from '#contract/programmes.ts'
import { ProblemError } from '#contract/read-answer.ts'
import { useProgrammeChanges } from '../../api/programmes.ts'
import { Meanwhile } from '../../record/meanwhile.tsx'
import { Button } from '../../ui/button.tsx'
import { ErrorNote } from '../../ui/state-note.tsx'
import {
  draftOfChosenProgramme,
  draftOfProgramme,
  fieldsOfProgramme,
  PROGRAMME_FIELDS,
  type ProgrammeDraft,
  programmeDrafts,
} from './programme-draft.ts'
import { ProgrammeFields } from './programme-fields.tsx'

interface Props {
  readonly kept: ProgrammeRecord
  readonly onDone: () => void
}

/** Changes name, note and state of a kept programme; what is typed is kept until it is saved. */
export function ProgrammeEdit({ kept, onDone }: Props) {
  const { id, feederId } = kept
  const [opened] = useState(() => draftOfProgramme(kept))
  const draft = programmeDrafts.use(id) ?? opened
  const keep = (next: ProgrammeDraft) => programmeDrafts.keep(id, next)
  const letGo = () => {
    programmeDrafts.keep(id, null)
    onDone()
  }
  const { change, restore } = useProgrammeChanges(feederId)
  const [newer, setNewer] = useState<ProgrammeRecord | null>(null)
  const standing = newer && newer.version > kept.version ? newer : kept
  const save = ({ name, note, state, version }: ProgrammeDraft) => {
    if (name.trim() === '' || version === null) return
    change.mutate(
      { id, body: { name: name.trim(), note, state, version } },
      { onSuccess: letGo, onError: (error) => setNewer(newerOf(error)) },
    )
  }
  return (
    <form
      className="stack year-form"
      aria-label={`Name, note and state of ${opened.name}`}
      noValidate
      onSubmit={(event) => {
        event.preventDefault()
        save(draft)
      }}
    >
      <Meanwhile
        thing={{ subject: 'programme', subjectId: id, feederId }}
        what="this programme"
        fields={PROGRAMME_FIELDS}
        typedOn={draft.version ?? kept.version}
        base={draft.base}
        mine={fieldsOfProgramme(draft)}
        standing={{
          version: standing.version,
          fields: fieldsOfProgramme(standing),
          isDeleted: standing.deletedAt !== null,
        }}
        isRefused={newer !== null}
        isSaving={change.isPending}
        onSave={(chosen) => {
          const merged = draftOfChosenProgramme(chosen, standing)
          keep(merged)
          save(merged)
        }}
        onDropMine={letGo}
        onRestore={(version) =>
          restore.mutate(
            { id, version },
            { onSuccess: (restored) => keep({ ...draft, version: restored.version }) },
          )
        }
      />
      <ProgrammeFields draft={draft} onType={(part) => keep({ ...draft, ...part })} />
      {restore.error && <ErrorNote title="Not restored." error={restore.error} />}
      {change.error && !newerOf(change.error) && (
        <ErrorNote title="Not saved; what you typed is still here." error={change.error} />
      )}
      <div className="row">
        <Button type="submit" look="main" disabled={change.isPending}>
          {change.isPending ? 'Saving…' : 'Save'}
        </Button>
        <Button onClick={letGo}>Give up the changes</Button>
      </div>
    </form>
  )
}

function newerOf(error: Error | null): ProgrammeRecord | null {
  if (!(error instanceof ProblemError)) return null
  return ProgrammeRecord.safeParse(error.problem.current).data ?? null
}
