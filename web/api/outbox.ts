import { useMemo } from 'react'
import type { RouteInput } from '#contract/route.ts'
import type { RouteName, routes } from '#contract/routes.ts'
import { onServerBack } from '../device/connection.ts'
import { onTableChange } from '../device/device-store.ts'
import type { StoredItem } from '../device/device-tables.ts'
import {
  addItem,
  changeItem,
  dropItems,
  fileOfItem,
  isHeldBack,
  itemsOf,
} from '../device/outbox-items.ts'
import { lastPerson, personHere } from '../device/person.ts'
import { randomId } from '../device/random-id.ts'
import { shareValue, useShared } from '../device/shared-value.ts'
import { measureRoom } from '../device/storage-room.ts'
import { problemOfOldItem, sendWaiting } from './send-waiting.ts'
import { knownMe, onMe, onSignedIn } from './signed-in.ts'

/** A write that was entered on this device, and what became of it. */
export interface OutboxItem {
  readonly id: string
  /** Time on the device. */
  readonly enteredAt: string
  /** In words. */
  readonly what: string
  readonly jobId?: string
  readonly feederId?: string
  readonly name: RouteName
  /** Without the file, where it has one (`fileInOutbox`). */
  readonly input: unknown
  readonly state: 'waiting' | 'sending' | 'kept' | 'refused' | 'conflict'
  readonly tries: number
  readonly problem?: string
  /** The record as it stands, of a conflict. */
  readonly current?: unknown
  readonly answer?: unknown
  /** When the person decided not to send it. */
  readonly setAsideAt?: string
}

interface About {
  readonly what: string
  readonly jobId?: string
  readonly feederId?: string
  /** Made by who enters it, so that the same thing entered twice is one; at least 8 characters. */
  readonly id?: string
}

const items = shareValue<readonly OutboxItem[]>([])

/**
 * Puts a write into the outbox. Resolves once it is safely on the device; it is sent by itself as
 * soon as there is a connection, in the order of entering. Where it was entered on top of an
 * unsent one of the same route and job, the version that it names is brought forward once that
 * one is kept.
 *
 * @throws Error where nobody is signed in
 */
export async function putInOutbox<Name extends RouteName>(
  name: Name,
  input: RouteInput<(typeof routes)[Name]>,
  { id = randomId(), what, jobId, feederId }: About,
): Promise<OutboxItem> {
  const personId = await lastPerson()
  if (personId === null) throw new Error('Nobody is signed in. Sign in, then enter it again.')
  const { file = null, ...rest } = input as { file?: Blob }
  const enteredAt = new Date().toISOString()
  const entered = { id, personId, enteredAt, what, jobId, feederId, name, input: rest }
  const item = await addItem(entered, file)
  if (file) void measureRoom()
  void sendOutbox()
  return shownItem(item, false)
}

/** What the person entered on this device, oldest first, whether sent or not. */
export function useOutbox(filter?: { readonly jobId?: string }): readonly OutboxItem[] {
  const all = useShared(items)
  const jobId = filter?.jobId
  return useMemo(
    () => (jobId === undefined ? all : all.filter((item) => item.jobId === jobId)),
    [all, jobId],
  )
}

/** The file of an item; null where it has none. */
export const fileInOutbox: (id: string) => Promise<Blob | null> = fileOfItem

/** Sends what waits, if the server is there; ends when nothing more can be sent for now. */
export function sendOutbox(): Promise<void> {
  return sendWaiting()
}

/** Sends an item again that was refused or met a newer record, with what the person chose. */
export async function answerConflict(id: string, input: unknown): Promise<void> {
  const { file: _, ...rest } = input as { file?: Blob }
  await changeItem(id, (item) => {
    if (item.state !== 'conflict' && item.state !== 'refused') return
    const { problem, current, answer, setAsideAt, ...kept } = item
    return { ...kept, input: rest, key: `${item.id}~${item.tries}`, state: 'waiting' }
  })
  void sendOutbox()
}

/** The person decides not to send an item. It stays listed until `clearKept`. */
export async function setAside(id: string): Promise<void> {
  await changeItem(id, (item) => {
    if (item.state === 'kept' || item.state === 'sending') return
    const mayHaveArrived = item.state === 'waiting' && item.tries > 0
    const problem = mayHaveArrived
      ? 'Set aside by you. It was sent before without an answer, so it may have arrived.'
      : 'Set aside by you; it is not sent.'
    return { ...item, state: 'refused', setAsideAt: new Date().toISOString(), problem }
  })
  // A move in conflict held back what was entered after it.
  void sendOutbox()
}

/** Takes off the list what the server has, and what the person set aside. */
export async function clearKept(): Promise<void> {
  const personId = await lastPerson()
  if (personId === null) return
  const own = await itemsOf(personId)
  const isDone = ({ state, setAsideAt }: StoredItem) => state === 'kept' || setAsideAt !== undefined
  await dropItems(own.filter(isDone).map(({ id }) => id))
}

/** Follows the device's outbox and sends by itself, until the returned function is called. */
export function startOutbox(): () => void {
  let isReading = false
  let isStale = false
  const read = async () => {
    if (isReading) {
      isStale = true
      return
    }
    isReading = true
    do {
      isStale = false
      const personId = await lastPerson()
      items.set(personId === null ? [] : shownItems(await itemsOf(personId)))
    } while (isStale)
    isReading = false
  }
  const send = () => void sendOutbox()
  let sentAs: string | undefined
  const sendAsPerson = () => {
    const personId = knownMe()?.id
    if (personId === sentAs) return
    sentAs = personId
    send()
  }
  const leave = [
    onTableChange((table) => void (table === 'outbox' && read())),
    personHere.follow(() => void read()),
    onMe(sendAsPerson),
    onSignedIn(send),
    onServerBack(send),
  ]
  void read()
  send()
  return () => {
    for (const end of leave) end()
  }
}

const HELD_BACK =
  'Not sent yet: a move of this job before it met something newer. It is sent once you have settled that.'

function shownItems(all: readonly StoredItem[]): OutboxItem[] {
  return all.map((item) => shownItem(item, isHeldBack(item, all)))
}

function shownItem(stored: StoredItem, isHeld: boolean): OutboxItem {
  const { personId, form, key, order, hasFile, after, name, ...item } = stored
  const isWaiting = isHeld && item.state === 'waiting'
  const problem = problemOfOldItem(stored) ?? (isWaiting ? HELD_BACK : item.problem)
  return { ...item, name: name as RouteName, ...(problem !== undefined && { problem }) }
}
