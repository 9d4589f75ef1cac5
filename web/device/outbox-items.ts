import { changeRow, readAll, readRow, writeRowsAnyhow } from './device-store.ts'
import type { StoredItem } from './device-tables.ts'

/** Form of the items that this version of the page writes and sends. */
export const ITEM_FORM = 1

export type NewItem = Pick<
  StoredItem,
  'id' | 'personId' | 'enteredAt' | 'what' | 'jobId' | 'feederId' | 'name' | 'input'
>

/** What was entered and is neither sent nor decided. */
export function isUnsent({ state }: Pick<StoredItem, 'state'>): boolean {
  return state === 'waiting' || state === 'sending'
}

/**
 * Whether a move of the same job before it met a newer record: until the person has settled that,
 * the server would refuse what was entered on top of it.
 */
export function isHeldBack(
  { jobId, order }: Pick<StoredItem, 'jobId' | 'order'>,
  all: readonly StoredItem[],
): boolean {
  return (
    jobId !== undefined &&
    all.some(
      (other) =>
        other.state === 'conflict' &&
        other.name === 'moveJob' &&
        other.jobId === jobId &&
        other.order < order,
    )
  )
}

/** Items of a person in the order in which they are sent. */
export async function itemsOf(personId: string): Promise<StoredItem[]> {
  const own = (await readAll('outbox')).filter((item) => item.personId === personId)
  return own.sort((a, b) => a.order - b.order || a.enteredAt.localeCompare(b.enteredAt))
}

/**
 * Puts an item behind the others; one with the same id that is there already stays as it is.
 * Resolves once it is safe on the device, or held in memory where the device takes nothing.
 *
 * @param file lies beside the item under the same id
 */
export async function addItem(entered: NewItem, file: Blob | null): Promise<StoredItem> {
  const all = await readAll('outbox')
  const before = all.find(({ id }) => id === entered.id)
  if (before) return before
  const after = all.filter((item) => isUnsent(item) && isOfSameRecord(item, entered))
  const item: StoredItem = {
    ...entered,
    form: ITEM_FORM,
    key: entered.id,
    order: all.reduce((most, { order }) => Math.max(most, order), 0) + 1,
    hasFile: file !== null,
    after: after.map(({ id }) => id),
    state: 'waiting',
    tries: 0,
  }
  await writeRowsAnyhow([
    ...(file ? [{ table: 'files', put: { id: item.id, file } } as const] : []),
    { table: 'outbox', put: item },
  ])
  return item
}

export function changeItem(
  id: string,
  next: (item: StoredItem) => StoredItem | undefined,
): Promise<StoredItem | undefined> {
  return changeRow('outbox', id, next)
}

export async function fileOfItem(id: string): Promise<Blob | null> {
  return (await readRow('files', id))?.file ?? null
}

export async function dropItems(ids: readonly string[]): Promise<void> {
  if (ids.length === 0) return
  await writeRowsAnyhow(
    ids.flatMap((id) => [
      { table: 'outbox', drop: id } as const,
      { table: 'files', drop: id } as const,
    ]),
  )
}

/** Whether both write the same record, so that the later one was entered on top of the earlier. */
function isOfSameRecord(a: StoredItem, b: NewItem): boolean {
  return a.personId === b.personId && a.name === b.name && a.jobId === b.jobId
}
