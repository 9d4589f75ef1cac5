import { useEffect, useState } from 'react'
import { useMay } from '../../api/account.ts'
import { useProgrammes } from '../../api/programmes.ts'
import { HistoryButton } from '../../record/history-button.tsx'
import { useFeeder } from '../../state/feeder.tsx'
import { select } from '../../state/selection.ts'
import { Button } from '../../ui/button.tsx'
import { EmptyNote, ErrorNote, LoadingNote } from '../../ui/state-note.tsx'
import { lookAtProgramme } from '../shown-programme.ts'
import { BudgetCurve } from './budget-curve.tsx'
import { ProgrammeEdit } from './programme-edit.tsx'
import { ProgrammeLine } from './programme-line.tsx'
import { ProgrammeView } from './programme-view.tsx'
import { viewOfProgramme } from './year-view.ts'

/** A programme as it was kept: nothing of it is computed anew. */
export function KeptProgramme({ id }: { readonly id: string }) {
  const feederId = useFeeder().feeder.header.id
  const { data, error, isPending } = useProgrammes(feederId)
  const kept = data?.find((programme) => programme.id === id)
  const mayChange = useMay('keep or change a programme')
  const [isEditing, setIsEditing] = useState(false)
  const programme = kept?.programme
  const name = kept?.name ?? ''
  useEffect(() => {
    if (programme) lookAtProgramme({ feederId, name, programme })
    return () => lookAtProgramme(null)
  }, [feederId, name, programme])
  const back = (
    <Button onClick={() => select({ view: viewOfProgramme(null) })}>Back to the year</Button>
  )
  if (isPending) return <LoadingNote what="Reading the programme…" />
  if (error) return <ErrorNote title="The programme could not be read." error={error} />
  if (!kept)
    return <EmptyNote what="This programme is deleted, or of another feeder.">{back}</EmptyNote>
  return (
    <article className="stack" aria-label={`Programme ${kept.name}`}>
      {back}
      <h3>{kept.name}</h3>
      <p className="soft first-capital">{kept.state}.</p>
      {kept.note && <p>{kept.note}</p>}
      {isEditing && mayChange ? (
        <ProgrammeEdit kept={kept} onDone={() => setIsEditing(false)} />
      ) : (
        mayChange && (
          <div>
            <Button onClick={() => setIsEditing(true)}>Edit name, note and state</Button>
          </div>
        )
      )}
      <ProgrammeLine programme={kept.programme} />
      <BudgetCurve programme={kept.programme} budgetUsd={kept.programme.request.budgetUsd} />
      <ProgrammeView programme={kept.programme} name={kept.name} programmeId={id} />
      <HistoryButton
        thing={{ subject: 'programme', subjectId: id, feederId }}
        name={`the programme ${kept.name}`}
      />
    </article>
  )
}
