import type { ProtectionRecord } from '#contract/protections.ts'
import type { BirdSettings } from '#domain/avian/bird-settings.ts'
import type { Part } from '#domain/avian/pole-top/part.ts'
import { useMay } from '../../api/account.ts'
import { useProtectionChanges } from '../../api/protections.ts'
import { Attachments } from '../../record/attachments.tsx'
import { Moment } from '../../record/moment.tsx'
import { Timeline } from '../../record/timeline.tsx'
import { Who } from '../../record/who.tsx'
import { useFeeder } from '../../state/feeder.tsx'
import { Button } from '../../ui/button.tsx'
import { ErrorNote } from '../../ui/state-note.tsx'
import { InspectForm } from './inspect-form.tsx'
import { InspectionLine } from './inspection-line.tsx'
import { ItemFacts } from './item-facts.tsx'
import { ItemForm } from './item-form.tsx'
import type { ItemView } from './item-view.ts'
import { justDeleted } from './just-deleted.ts'
import { showItemView } from './show-item-view.ts'
import { StateMark } from './state-mark.tsx'

type OfItem = 'edit' | 'inspect' | 'history' | 'files'

interface Props {
  readonly item: ProtectionRecord
  readonly view: ItemView
  /** Of the pole as framed. */
  readonly parts: readonly Part[]
  readonly settings: BirdSettings | undefined
}

/** One item of the list, with whatever of it stands open. */
export function PoleItem({ item, view, parts, settings }: Props) {
  const feederId = useFeeder().feeder.header.id
  const isOpen = (open: OfItem) => view?.open === open && view.item === item.id
  const close = () => showItemView(null)
  if (isOpen('edit')) {
    return (
      <li>
        <ItemForm pole={item.pole} item={item} parts={parts} onDone={close} />
      </li>
    )
  }
  if (isOpen('inspect')) {
    return (
      <li>
        <InspectForm item={item} onDone={close} />
      </li>
    )
  }
  const name = `${item.kind}, ${item.what}`
  const toggle = (open: OfItem) => showItemView(isOpen(open) ? null : { open, item: item.id })
  return (
    <li className="item">
      <span className="item-head">
        <strong>{item.kind}</strong> {item.what}
      </span>
      <span>
        <StateMark state={item.state} /> since {item.on}. {item.note}
      </span>
      <ItemFacts item={item} parts={parts} />
      <InspectionLine item={item} settings={settings} />
      <span className="soft small">
        Recorded by <Who {...item.changedBy} />, <Moment at={item.changedAt} />
      </span>
      <div className="row">
        <ItemChanges item={item} name={name} />
        <Button
          aria-label={`History of ${name}`}
          aria-expanded={isOpen('history')}
          onClick={() => toggle('history')}
        >
          History
        </Button>
        <Button
          aria-label={`Photos and reports of ${name}`}
          aria-expanded={isOpen('files')}
          onClick={() => toggle('files')}
        >
          Photos
        </Button>
      </div>
      {isOpen('history') && (
        <Timeline thing={{ subject: 'protection', subjectId: item.id, feederId }} name={name} />
      )}
      {isOpen('files') && (
        <Attachments
          holder={{ feederId, attachedTo: 'protection', attachedToId: item.id }}
          of={name}
        />
      )}
    </li>
  )
}

/** Editing and deleting, each only for whoever may. */
function ItemChanges({ item, name }: { readonly item: ProtectionRecord; readonly name: string }) {
  const { remove } = useProtectionChanges(useFeeder().feeder.header.id)
  const mayRecord = useMay('record or change a guard, cover or perch')
  const mayDelete = useMay('delete or restore a guard, cover or perch')
  const discard = () =>
    remove.mutate(item, {
      onSuccess: (deleted) => justDeleted.set([deleted, ...justDeleted.get()]),
    })
  return (
    <>
      {mayRecord && item.state !== 'planned' && item.state !== 'removed' && (
        <Button
          aria-label={`Inspect ${name}`}
          onClick={() => showItemView({ open: 'inspect', item: item.id })}
        >
          Inspect
        </Button>
      )}
      {mayRecord && (
        <Button
          aria-label={`Edit ${name}`}
          onClick={() => showItemView({ open: 'edit', item: item.id })}
        >
          Edit
        </Button>
      )}
      {mayDelete && (
        <Button
          look="danger"
          aria-label={`Delete the entry ${name}`}
          disabled={remove.isPending}
          onClick={discard}
        >
          Delete entry
        </Button>
      )}
      {remove.error && <ErrorNote title="Not deleted" error={remove.error} onRetry={discard} />}
    </>
  )
}
