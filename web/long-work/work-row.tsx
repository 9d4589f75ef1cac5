import { useState } from 'react'
import { hasEnded, type WorkSummary } from '#contract/work.ts'
import { useFeederList } from '../api/feeders.ts'
import { useWorkList } from '../api/long-work.ts'
import { Moment } from '../record/moment.tsx'
import { Who } from '../record/who.tsx'
import { Button } from '../ui/button.tsx'
import { List, ListRow } from '../ui/list.tsx'
import { ErrorNote, LoadingNote } from '../ui/state-note.tsx'
import { stateOfWork, workInWords } from './work-in-words.ts'
import { WorkSteps } from './work-steps.tsx'

interface Props {
  readonly item: WorkSummary
  /** The page now shows what came of it. */
  readonly onOpened: () => void
}

/** One item: what it is, how far, whose, and what can be done with it. */
export function WorkRow({ item, onOpened }: Props) {
  const feeders = useFeederList().data ?? []
  const nameOf = (id: string) => feeders.find((feeder) => feeder.id === id)?.name ?? id
  const name = workInWords(item, nameOf)
  const { state, done, total, startedBy, startedAt, endedAt } = item
  return (
    <article className="work-row" aria-label={name}>
      <strong>{name}</strong>
      <span data-state={state} className="work-state">
        {stateOfWork(item)}
      </span>
      {!hasEnded(state) && (
        <progress
          className="work-progress"
          aria-label={`How far: ${name}`}
          max={total > 0 ? total : undefined}
          value={total > 0 ? done : undefined}
        />
      )}
      <span className="small soft">
        <Who {...startedBy} />, <Moment at={startedAt} />
        {endedAt !== null && (
          <>
            ; ended <Moment at={endedAt} />
          </>
        )}
      </span>
      <WorkSteps item={item} name={name} onOpened={onOpened} />
      {item.kind === 'siting-many' && <Parts of={item} name={name} onOpened={onOpened} />}
    </article>
  )
}

function Parts({
  of,
  name,
  onOpened,
}: {
  readonly of: WorkSummary
  readonly name: string
  readonly onOpened: () => void
}) {
  const [isOpen, setIsOpen] = useState(false)
  return (
    <>
      <div className="row">
        <Button
          aria-expanded={isOpen}
          aria-label={`Each of: ${name}`}
          onClick={() => setIsOpen(!isOpen)}
        >
          {isOpen ? 'Fold in' : 'Each study'}
        </Button>
      </div>
      {isOpen && <OpenParts workId={of.id} onOpened={onOpened} />}
    </>
  )
}

function OpenParts({
  workId,
  onOpened,
}: {
  readonly workId: string
  readonly onOpened: () => void
}) {
  const { data, error } = useWorkList(workId)
  if (error) return <ErrorNote title="The studies could not be listed." error={error} />
  if (!data) return <LoadingNote what="Listing the studies…" />
  return (
    <List label={`Studies: ${data.length}`}>
      {data.map((item) => (
        <ListRow key={item.id}>
          <WorkRow item={item} onOpened={onOpened} />
        </ListRow>
      ))}
    </List>
  )
}
