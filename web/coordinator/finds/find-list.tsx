import { useState } from 'react'
import type { IncidentRecord } from '#contract/incidents.ts'
import { followUpRule, followUpSteps, nextStep } from '#domain/avian/account/follow-up.ts'
import type { BirdSettings } from '#domain/avian/bird-settings.ts'
import { useMay } from '../../api/account.ts'
import { useIncidentChanges } from '../../api/incidents.ts'
import { useFeeder } from '../../state/feeder.tsx'
import { counted } from '../../state/format.ts'
import { Button } from '../../ui/button.tsx'
import { EmptyNote } from '../../ui/state-note.tsx'
import { FindForm } from './find-form.tsx'
import { FindRow } from './find-row.tsx'
import { GoneNote, useGone } from './gone-note.tsx'
import { showFinds, useFindsView } from './show-finds.ts'
import { useOrphan } from './use-orphan.ts'

interface Props {
  readonly finds: readonly IncidentRecord[]
  readonly settings: BirdSettings | undefined
  readonly today: string
}

/** Finds, those with something overdue first, then the newest. */
export function FindList({ finds, settings, today }: Props) {
  const feederId = useFeeder().feeder.header.id
  const { restore } = useIncidentChanges(feederId)
  const view = useFindsView()
  const mayRecord = useMay('record or change a find')
  const gone = useGone<IncidentRecord>()
  const [isDueOnly, setIsDueOnly] = useState(false)
  const edited = view?.open === 'edit find' ? view.id : null
  const orphan = useOrphan(finds, edited)
  const sorted = sortedFinds(finds, settings, today)
  const shown = isDueOnly ? sorted.filter(({ next }) => next !== null) : sorted
  if (finds.length === 0 && gone.list.length === 0 && !orphan) {
    return (
      <EmptyNote
        what={
          mayRecord
            ? 'No dead or hurt bird is recorded on this feeder. That nobody found one does not say that none died. Record a find when one is reported.'
            : 'No dead or hurt bird is recorded on this feeder. That nobody found one does not say that none died.'
        }
      />
    )
  }
  return (
    <>
      <div className="row">
        <span className="soft small" role="status">
          {shown.length} of {counted(finds.length, 'find')}, overdue first, then the newest.
        </span>
        <Button isPressed={isDueOnly} onClick={() => setIsDueOnly(!isDueOnly)}>
          Only with something to do
        </Button>
      </div>
      {gone.list.map((find) => (
        <GoneNote
          key={find.id}
          what={`find, ${find.species}, ${find.foundOn}`}
          restore={restore}
          deleted={find}
          onDone={() => gone.forget(find)}
        />
      ))}
      <ul className="item-list">
        {shown.map(({ find, next }) => (
          <li key={find.id}>
            {edited === find.id && mayRecord ? (
              <EditFind find={find} />
            ) : (
              <FindRow
                find={find}
                next={next}
                settings={settings}
                today={today}
                isOpen={view?.open === 'find' && view.id === find.id}
                onDeleted={gone.add}
              />
            )}
          </li>
        ))}
        {orphan && mayRecord && (
          <li key={orphan.id}>
            <EditFind find={orphan} />
          </li>
        )}
      </ul>
    </>
  )
}

function EditFind({ find }: { readonly find: IncidentRecord }) {
  const open = () => showFinds({ open: 'find', id: find.id })
  return <FindForm find={find} onDone={open} onSaved={open} />
}

function sortedFinds(
  finds: readonly IncidentRecord[],
  settings: BirdSettings | undefined,
  today: string,
) {
  const overdueFirst = (next: { readonly state: string } | null) =>
    next?.state === 'overdue' ? 0 : 1
  return finds
    .map((find) => ({
      find,
      next: nextStep(followUpSteps(find, followUpRule(find.species, settings).days, today)),
    }))
    .sort(
      (a, b) =>
        overdueFirst(a.next) - overdueFirst(b.next) || b.find.foundOn.localeCompare(a.find.foundOn),
    )
}
