import { useRef } from 'react'
import type { ProtectionRecord } from '#contract/protections.ts'
import type { BirdSettings } from '#domain/avian/bird-settings.ts'
import type { Part } from '#domain/avian/pole-top/part.ts'
import { useMay } from '../../api/account.ts'
import { useProtectionChanges } from '../../api/protections.ts'
import { useShared } from '../../device/shared-value.ts'
import { useFeeder } from '../../state/feeder.tsx'
import { useSelection } from '../../state/selection.ts'
import { Button } from '../../ui/button.tsx'
import { EmptyNote, ErrorNote } from '../../ui/state-note.tsx'
import { ItemForm } from './item-form.tsx'
import { type ItemView, itemViewOf } from './item-view.ts'
import { justDeleted } from './just-deleted.ts'
import { PoleItem } from './pole-item.tsx'
import { showItemView } from './show-item-view.ts'

interface Props {
  readonly pole: string
  readonly items: readonly ProtectionRecord[]
  /** Of the pole as framed. */
  readonly parts: readonly Part[]
  readonly settings: BirdSettings | undefined
}

/** Guards, covers and perches of a pole: the list, and the one form or history that is open. */
export function PoleItems({ pole, items, parts, settings }: Props) {
  const view = itemViewOf(useSelection().view)
  const mayRecord = useMay('record or change a guard, cover or perch')
  const isAdding = view?.open === 'new' && view.pole === pole
  const orphan = useOrphan(items, view)
  return (
    <section className="stack" aria-label="Guards, covers and perches">
      <h3>Guards, covers and perches</h3>
      <p className="soft small">
        What is on the pole, sound and not failed closes the pairs of the parts that it covers. A
        perch or a deterrent alone never closes one.
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
          <PoleItem key={item.id} item={item} view={view} parts={parts} settings={settings} />
        ))}
        {orphan && (
          <li key={orphan.id}>
            <ItemForm pole={pole} item={orphan} parts={parts} onDone={() => showItemView(null)} />
          </li>
        )}
      </ul>
      <JustDeleted pole={pole} items={items} />
      {mayRecord && isAdding && (
        <ItemForm pole={pole} item={null} parts={parts} onDone={() => showItemView(null)} />
      )}
      {mayRecord && !isAdding && (
        <Button onClick={() => showItemView({ open: 'new', pole })}>
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

/** Deleted entries of the pole, as long as nobody brought them back. */
function JustDeleted({ pole, items }: Pick<Props, 'pole' | 'items'>) {
  const { restore } = useProtectionChanges(useFeeder().feeder.header.id)
  const standing = new Set(items.map(({ id }) => id))
  const deleted = useShared(justDeleted).filter(
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
