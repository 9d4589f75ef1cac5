import { useRef } from 'react'
import type { ProtectionRecord } from '#contract/protections.ts'
import { useMay } from '../api/account.ts'
import { useProtectionChanges } from '../api/protections.ts'
import { Attachments } from '../record/attachments.tsx'
import { Moment } from '../record/moment.tsx'
import { Timeline } from '../record/timeline.tsx'
import { Who } from '../record/who.tsx'
import { useFeeder } from '../state/feeder.tsx'
import { select, useSelection } from '../state/selection.ts'
import { createStore, useStore } from '../state/store.ts'
import { Button } from '../ui/button.tsx'
import { EmptyNote, ErrorNote } from '../ui/state-note.tsx'
import { ItemForm } from './item-form.tsx'
import { addressOfItemView, type ItemView, itemViewOf } from './item-view.ts'
import { StateMark } from './state-mark.tsx'

interface Props {
  readonly pole: string
  readonly items: readonly ProtectionRecord[]
}

const show = (view: ItemView): void => select({ view: addressOfItemView(view) })

/** Entries deleted here since the page was opened, so that each can be brought back in its place. */
const justDeleted = createStore<readonly ProtectionRecord[]>([])

/** Guards, covers and perches of a pole: the list, and the one form or history that is open. */
export function PoleItems({ pole, items }: Props) {
  const view = itemViewOf(useSelection().view)
  const mayRecord = useMay('record or change a guard, cover or perch')
  const isAdding = view?.open === 'new' && view.pole === pole
  const orphan = useOrphan(items, view)
  return (
    <section className="stack" aria-label="Guards, covers and perches">
      <h3>Guards, covers and perches</h3>
      <p className="soft small">
        None of them counts as separation: the verdict above is by the recorded gaps alone. What a
        cover leaves open is not judged here.
      </p>
      {items.length === 0 && (
        <EmptyNote
          what={
            mayRecord
              ? 'Nothing is recorded on this pole. Add what hangs there or what is planned.'
              : 'Nothing is recorded on this pole.'
          }
        />
      )}
      <ul className="item-list">
        {items.map((item) => (
          <PoleItem key={item.id} item={item} view={view} />
        ))}
        {orphan && (
          <li key={orphan.id}>
            <ItemForm pole={pole} item={orphan} onDone={() => show(null)} />
          </li>
        )}
      </ul>
      <JustDeleted pole={pole} items={items} />
      {mayRecord && isAdding && <ItemForm pole={pole} item={null} onDone={() => show(null)} />}
      {mayRecord && !isAdding && (
        <Button
          look={view?.open === 'edit' ? undefined : 'main'}
          onClick={() => show({ open: 'new', pole })}
        >
          Add a guard, cover or perch
        </Button>
      )}
      {!mayRecord && (
        <p className="soft small">
          Recording guards, covers and perches is the coordinator’s and the crew’s.
        </p>
      )}
    </section>
  )
}

/** The item whose form stands open although someone else deleted it meanwhile. */
function useOrphan(items: readonly ProtectionRecord[], view: ItemView): ProtectionRecord | null {
  const lastEdited = useRef<ProtectionRecord | null>(null)
  if (view?.open !== 'edit') return null
  const standing = items.find(({ id }) => id === view.item)
  if (standing) {
    lastEdited.current = standing
    return null
  }
  return lastEdited.current?.id === view.item ? lastEdited.current : null
}

function PoleItem({ item, view }: { readonly item: ProtectionRecord; readonly view: ItemView }) {
  const feederId = useFeeder().feeder.header.id
  const isOpen = (open: 'edit' | 'history' | 'files') =>
    view?.open === open && view.item === item.id
  const close = () => show(null)
  if (isOpen('edit')) {
    return (
      <li>
        <ItemForm pole={item.pole} item={item} onDone={close} />
      </li>
    )
  }
  const name = `${item.kind}, ${item.what}`
  const toggle = (open: 'history' | 'files') => show(isOpen(open) ? null : { open, item: item.id })
  return (
    <li className="item">
      <span className="item-head">
        <strong>{item.kind}</strong> {item.what}
      </span>
      <span>
        <StateMark state={item.state} /> since {item.on}. {item.note}
      </span>
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
      {mayRecord && (
        <Button aria-label={`Edit ${name}`} onClick={() => show({ open: 'edit', item: item.id })}>
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

/** Deleted entries of the pole, as long as nobody brought them back. */
function JustDeleted({ pole, items }: Props) {
  const { restore } = useProtectionChanges(useFeeder().feeder.header.id)
  const standing = new Set(items.map(({ id }) => id))
  const deleted = useStore(justDeleted).filter(
    (item) => item.pole === pole && !standing.has(item.id),
  )
  const forget = (item: ProtectionRecord) =>
    justDeleted.set(justDeleted.get().filter(({ id }) => id !== item.id))
  return deleted.map((item) => (
    <div key={item.id} className="state-note" role="status">
      <span>
        Deleted from the record: {item.kind}, {item.what}. Its history is kept.
      </span>
      {restore.error && <ErrorNote title="Not brought back" error={restore.error} />}
      <Button onClick={() => restore.mutate(item, { onSuccess: () => forget(item) })}>
        Undo the deletion
      </Button>
    </div>
  ))
}
