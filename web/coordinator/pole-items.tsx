import type { ProtectionRecord } from '#contract/protections.ts'
import { useProtectionChanges } from '../api/protections.ts'
import { useFeeder } from '../state/feeder.tsx'
import { select, useSelection } from '../state/selection.ts'
import { Button } from '../ui/button.tsx'
import { EmptyNote, ErrorNote } from '../ui/state-note.tsx'
import { forgetDeleted, rememberDeleted, useDeletedItems } from './deleted-items.ts'
import { ItemForm } from './item-form.tsx'
import { ItemHistory } from './item-history.tsx'
import { addressOfItemView, type ItemView, itemViewOf } from './item-view.ts'
import { momentInWords } from './moment-in-words.ts'
import { StateMark } from './state-mark.tsx'

interface Props {
  readonly pole: string
  readonly items: readonly ProtectionRecord[]
}

const show = (view: ItemView): void => select({ view: addressOfItemView(view) })

/** Guards, covers and perches of a pole: the list, and the one form or history that is open. */
export function PoleItems({ pole, items }: Props) {
  const view = itemViewOf(useSelection().view)
  const isAdding = view?.open === 'new' && view.pole === pole
  return (
    <section className="stack" aria-label="Guards, covers and perches">
      <h3>Guards, covers and perches</h3>
      <p className="soft small">
        None of them counts as separation: the verdict above is by the recorded gaps alone. What a
        cover leaves open is not judged here.
      </p>
      {items.length === 0 && (
        <EmptyNote what="Nothing is recorded on this pole. Add what hangs there or what is planned." />
      )}
      <ul className="item-list">
        {items.map((item) => (
          <PoleItem key={item.id} item={item} view={view} />
        ))}
      </ul>
      <DeletedItems pole={pole} />
      {isAdding ? (
        <ItemForm pole={pole} item={null} onDone={() => show(null)} />
      ) : (
        <Button
          look={view?.open === 'edit' ? undefined : 'main'}
          onClick={() => show({ open: 'new', pole })}
        >
          Add a guard, cover or perch
        </Button>
      )}
    </section>
  )
}

function PoleItem({ item, view }: { readonly item: ProtectionRecord; readonly view: ItemView }) {
  const { remove } = useProtectionChanges(useFeeder().feeder.header.id)
  const isOpen = (open: 'edit' | 'history') => view?.open === open && view.item === item.id
  const close = () => show(null)
  if (isOpen('edit')) {
    return (
      <li>
        <ItemForm pole={item.pole} item={item} onDone={close} />
      </li>
    )
  }
  const name = `${item.kind}, ${item.what}`
  const discard = () => remove.mutate(item, { onSuccess: (deleted) => rememberDeleted(deleted) })
  return (
    <li className="item">
      <span className="item-head">
        <strong>{item.kind}</strong> {item.what}
      </span>
      <span>
        <StateMark state={item.state} /> since {item.on}. {item.note}
      </span>
      <span className="soft small">
        Recorded by {item.changedBy.id} ({item.changedBy.role}), {momentInWords(item.changedAt)}
      </span>
      <div className="row">
        <Button aria-label={`Edit ${name}`} onClick={() => show({ open: 'edit', item: item.id })}>
          Edit
        </Button>
        <Button
          aria-label={`History of ${name}`}
          onClick={() => show({ open: 'history', item: item.id })}
        >
          History
        </Button>
        <Button
          look="danger"
          aria-label={`Delete the entry ${name}`}
          disabled={remove.isPending}
          onClick={discard}
        >
          Delete entry
        </Button>
      </div>
      {remove.error && <ErrorNote title="Not deleted" error={remove.error} onRetry={discard} />}
      {isOpen('history') && <ItemHistory item={item} onClose={close} />}
    </li>
  )
}

function DeletedItems({ pole }: { readonly pole: string }) {
  const { restore } = useProtectionChanges(useFeeder().feeder.header.id)
  const deleted = useDeletedItems(pole)
  return deleted.map((item) => (
    <div key={item.id} className="state-note" role="status">
      <span>
        Deleted from the record: {item.kind}, {item.what}. Its history is kept.
      </span>
      {restore.error && <ErrorNote title="Not brought back" error={restore.error} />}
      <Button onClick={() => restore.mutate(item.id, { onSuccess: () => forgetDeleted(item.id) })}>
        Undo the deletion
      </Button>
    </div>
  ))
}
