import type { IncidentRecord } from '#contract/incidents.ts'
import type { FollowUpStep } from '#domain/avian/account/follow-up.ts'
import type { BirdSettings } from '#domain/avian/bird-settings.ts'
import { useMay } from '../../api/account.ts'
import { useIncidentChanges } from '../../api/incidents.ts'
import { Attachments } from '../../record/attachments.tsx'
import { HistoryButton } from '../../record/history-button.tsx'
import type { Fields } from '../../record/merge-fields.ts'
import { Moment } from '../../record/moment.tsx'
import { Who } from '../../record/who.tsx'
import { showPlace } from '../../state/camera.ts'
import { useFeeder } from '../../state/feeder.tsx'
import { select } from '../../state/selection.ts'
import { Button } from '../../ui/button.tsx'
import { ErrorNote } from '../../ui/state-note.tsx'
import { FilledFields } from './filled-fields.tsx'
import { fieldsOfFind } from './find-body.ts'
import { FIND_FIELDS } from './find-fields.ts'
import { findInWords, stepInWords } from './find-words.ts'
import { FollowUpSteps } from './follow-up-steps.tsx'
import { showFinds } from './show-finds.ts'
import { SimilarPoleList } from './similar-pole-list.tsx'
import { StepMark } from './step-mark.tsx'
import { useArrival } from './use-arrival.ts'
import { usePoleTop } from './use-pole-top.ts'

interface Props {
  readonly find: IncidentRecord
  readonly next: FollowUpStep | null
  readonly settings: BirdSettings | undefined
  readonly today: string
  readonly isOpen: boolean
  readonly onDeleted: (find: IncidentRecord) => void
}

/** One find in a line or two; opened, with all that is known and what follows. */
export function FindRow({ find, next, settings, today, isOpen, onDeleted }: Props) {
  const open = () => {
    showFinds(isOpen ? null : { open: 'find', id: find.id })
    if (!isOpen) showPlace(find.at)
  }
  return (
    <article
      ref={useArrival(isOpen)}
      className="item"
      aria-label={`Find: ${find.species}, ${find.foundOn}`}
    >
      <button type="button" className="item-open" aria-expanded={isOpen} onClick={open}>
        <strong className="first-capital">
          {find.foundOn}: {findInWords(find)}
        </strong>
        {next ? (
          <span className="step-words">
            <StepMark state={next.state} />{' '}
            <span className="first-capital">{stepInWords(next)}</span>
          </span>
        ) : (
          <span className="step-words">
            <StepMark state="kept" /> All that follows is written down as done.
          </span>
        )}
      </button>
      {isOpen && <FindDetail find={find} settings={settings} today={today} onDeleted={onDeleted} />}
    </article>
  )
}

function FindDetail({ find, settings, today, onDeleted }: Omit<Props, 'next' | 'isOpen'>) {
  const feederId = useFeeder().feeder.header.id
  const mayRecord = useMay('record or change a find')
  const name = `the find ${find.species}, ${find.foundOn}`
  return (
    <div className="stack">
      <FollowUpSteps find={find} settings={settings} today={today} mayChange={mayRecord} />
      <FilledFields fields={FIND_FIELDS} values={useFieldsInWords(find)} />
      <span className="soft small">
        Recorded by <Who {...find.changedBy} />, <Moment at={find.changedAt} />
      </span>
      <HistoryButton
        thing={{ subject: 'incident', subjectId: find.id, feederId }}
        name={name}
        beside={<FindSteps find={find} onDeleted={onDeleted} />}
      />
      {find.pole !== undefined && <SimilarPoleList pole={find.pole} />}
      <Attachments holder={{ feederId, attachedTo: 'incident', attachedToId: find.id }} of={name} />
    </div>
  )
}

/** With the parts by their names in the drawing; one that the drawing no longer has keeps its id. */
function useFieldsInWords(find: IncidentRecord): Fields {
  const top = usePoleTop(find.pole ?? '')
  const fields = fieldsOfFind(find)
  const nameOf = (partId = '') => top?.parts.find(({ id }) => id === partId)?.label ?? partId
  return {
    ...fields,
    suspectedPartA: nameOf(fields.suspectedPartA),
    suspectedPartB: nameOf(fields.suspectedPartB),
  }
}

function FindSteps({ find, onDeleted }: Pick<Props, 'find' | 'onDeleted'>) {
  const { remove } = useIncidentChanges(useFeeder().feeder.header.id)
  const mayRecord = useMay('record or change a find')
  const mayDelete = useMay('delete or restore a nest or a find')
  const { pole } = find
  const name = `the find ${find.species}, ${find.foundOn}`
  const discard = () => remove.mutate(find, { onSuccess: onDeleted })
  return (
    <>
      {mayRecord && (
        <Button
          aria-label={`Edit ${name}`}
          onClick={() => showFinds({ open: 'edit find', id: find.id })}
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
          onClick={discard}
        >
          Delete
        </Button>
      )}
      {remove.error && <ErrorNote title="Not deleted" error={remove.error} />}
    </>
  )
}
