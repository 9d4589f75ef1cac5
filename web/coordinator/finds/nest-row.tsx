import { ChangeNestBody, type NestRecord } from '#contract/nests.ts'
import type { NestBuffer } from '#domain/avian/nests/buffer-sets.ts'
import { dayInWords } from '#domain/avian/nests/calendar-days.ts'
import { useMay } from '../../api/account.ts'
import { useNestChanges } from '../../api/nests.ts'
import { Attachments } from '../../record/attachments.tsx'
import { HistoryButton } from '../../record/history-button.tsx'
import { Moment } from '../../record/moment.tsx'
import { Who } from '../../record/who.tsx'
import { showPlace } from '../../state/camera.ts'
import { useFeeder } from '../../state/feeder.tsx'
import { inWords, length } from '../../state/format.ts'
import { select, useSelection } from '../../state/selection.ts'
import { Button } from '../../ui/button.tsx'
import { ErrorNote } from '../../ui/state-note.tsx'
import { seasonInWords, withLook } from './nest-seasons.ts'
import { showFinds } from './show-finds.ts'
import { useArrival } from './use-arrival.ts'

interface Props {
  readonly nest: NestRecord
  readonly buffer: NestBuffer
  readonly isInSeason: boolean
  readonly today: string
  readonly isOpen: boolean
  readonly onDeleted: (nest: NestRecord) => void
}

/** One nest in two lines; opened, with its seasons, its buffer and where that is from. */
export function NestRow({ nest, buffer, isInSeason, today, isOpen, onDeleted }: Props) {
  const { units } = useSelection()
  const where = nest.pole === undefined ? 'away from the poles' : `on pole ${nest.pole}`
  const open = () => {
    showFinds(isOpen ? null : { open: 'nest', id: nest.id })
    if (!isOpen) showPlace(nest.at)
  }
  return (
    <article
      ref={useArrival(isOpen)}
      className="item"
      aria-label={`Nest: ${nest.species}, ${nest.id}`}
    >
      <button type="button" className="item-open" aria-expanded={isOpen} onClick={open}>
        <strong className="first-capital">
          {nest.species}, {nest.status === 'unknown' ? 'use unknown' : nest.status}, {where}
        </strong>
        <span>
          {isInSeason ? 'In season' : 'Out of season'} today: {dayInWords(buffer.from)} to{' '}
          {dayInWords(buffer.to)}, buffer {inWords(length(buffer.distanceM, units))}.{' '}
          {nest.lastSeen ? `Last seen ${nest.lastSeen}.` : 'Nobody wrote down when it was seen.'}
        </span>
      </button>
      {isOpen && <NestDetail nest={nest} buffer={buffer} today={today} onDeleted={onDeleted} />}
    </article>
  )
}

function NestDetail({ nest, buffer, today, onDeleted }: Omit<Props, 'isOpen' | 'isInSeason'>) {
  const feederId = useFeeder().feeder.header.id
  const name = `the nest ${nest.species}, ${nest.id}`
  return (
    <div className="stack">
      <p>
        Buffer by: {buffer.source}. How sure: {buffer.sureness}. Advisory: the agency decides.
      </p>
      {nest.platform && <p>Platform: {nest.platform}.</p>}
      {nest.note && <p>{nest.note}</p>}
      <NestLooks nest={nest} today={today} />
      <span className="soft small">
        Recorded by <Who {...nest.changedBy} />, <Moment at={nest.changedAt} />
      </span>
      <HistoryButton
        thing={{ subject: 'nest', subjectId: nest.id, feederId }}
        name={name}
        beside={<NestSteps nest={nest} onDeleted={onDeleted} />}
      />
      <Attachments holder={{ feederId, attachedTo: 'nest', attachedToId: nest.id }} of={name} />
    </div>
  )
}

/** How it fared by season, and a step to write down what was seen today. */
function NestLooks({ nest, today }: Pick<Props, 'nest' | 'today'>) {
  const { change } = useNestChanges(useFeeder().feeder.header.id)
  const mayRecord = useMay('record or change a nest')
  const note = (status: 'in use' | 'not in use') =>
    change.mutate({
      id: nest.id,
      body: ChangeNestBody.parse({
        ...nest,
        status,
        lastSeen: today,
        seasons: withLook(nest.seasons, status, today),
      }),
    })
  return (
    <section className="stack" aria-label="Seasons">
      <h4>Seasons ({nest.seasons.length})</h4>
      {nest.seasons.length === 0 && <p className="soft">No season is written down yet.</p>}
      <ul>
        {nest.seasons.map((season) => (
          <li key={season.year}>{seasonInWords(season)}</li>
        ))}
      </ul>
      {mayRecord && (
        <div className="row">
          <Button disabled={change.isPending} onClick={() => note('in use')}>
            Seen in use today
          </Button>
          <Button disabled={change.isPending} onClick={() => note('not in use')}>
            Seen not in use today
          </Button>
        </div>
      )}
      {change.error && <ErrorNote title="Not written down" error={change.error} />}
    </section>
  )
}

function NestSteps({ nest, onDeleted }: Pick<Props, 'nest' | 'onDeleted'>) {
  const { remove } = useNestChanges(useFeeder().feeder.header.id)
  const mayRecord = useMay('record or change a nest')
  const mayDelete = useMay('delete or restore a nest or a find')
  const name = `the nest ${nest.species}, ${nest.id}`
  const { pole } = nest
  return (
    <>
      {mayRecord && (
        <Button
          aria-label={`Edit ${name}`}
          onClick={() => showFinds({ open: 'edit nest', id: nest.id })}
        >
          Edit
        </Button>
      )}
      {pole !== undefined && (
        <Button onClick={() => select({ pole, view: null })}>Pole {pole}</Button>
      )}
      {mayDelete && (
        <Button
          look="danger"
          aria-label={`Delete ${name}`}
          disabled={remove.isPending}
          onClick={() => remove.mutate(nest, { onSuccess: onDeleted })}
        >
          Delete
        </Button>
      )}
      {remove.error && <ErrorNote title="Not deleted" error={remove.error} />}
    </>
  )
}
