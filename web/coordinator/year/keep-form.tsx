import type { FormEvent } from 'react'
import type { Programme } from '#domain/avian/programme/programme.ts'
import { useMay } from '../../api/account.ts'
import { useProgrammeChanges } from '../../api/programmes.ts'
import { useFeeder } from '../../state/feeder.tsx'
import { select } from '../../state/selection.ts'
import { Button } from '../../ui/button.tsx'
import { ErrorNote } from '../../ui/state-note.tsx'
import { type ProgrammeDraft, programmeDrafts } from './programme-draft.ts'
import { ProgrammeFields } from './programme-fields.tsx'
import { viewOfProgramme } from './year-view.ts'

/** Keeps the plan, as it stands now, as a programme. */
export function KeepForm({ programme }: { readonly programme: Programme }) {
  const feederId = useFeeder().feeder.header.id
  const { keep } = useProgrammeChanges(feederId)
  const key = `${feederId}~new`
  const draft = programmeDrafts.use(key)
  if (!useMay('keep or change a programme')) {
    return <p className="soft">Keeping programmes is the coordinator’s and the supervisor’s.</p>
  }
  if (!draft) {
    const begin = () => programmeDrafts.keep(key, newDraft(programme))
    return (
      <div>
        <Button look="main" disabled={programme.poles.length === 0} onClick={begin}>
          Keep as programme
        </Button>
      </div>
    )
  }
  const submit = (event: FormEvent) => {
    event.preventDefault()
    const { name, note, state } = draft
    if (name.trim() === '') return
    keep.mutate(
      { name: name.trim(), note, state, programme },
      {
        onSuccess: ({ id }) => {
          programmeDrafts.keep(key, null)
          select({ view: viewOfProgramme(id) })
        },
      },
    )
  }
  return (
    <form className="stack year-form" aria-label="Keep as programme" noValidate onSubmit={submit}>
      <ProgrammeFields
        draft={draft}
        onType={(change) => programmeDrafts.keep(key, { ...draft, ...change })}
      />
      {keep.error && <ErrorNote title="It was not kept." error={keep.error} />}
      <div className="row">
        <Button type="submit" look="main" disabled={keep.isPending}>
          {keep.isPending ? 'Keeping…' : 'Keep'}
        </Button>
        <Button onClick={() => programmeDrafts.keep(key, null)}>Not now</Button>
      </div>
    </form>
  )
}

function newDraft({ request }: Programme): ProgrammeDraft {
  const name = `Bird work from ${request.from}`
  return { name, note: '', state: 'draft', version: null, base: null }
}
