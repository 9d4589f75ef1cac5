import { ProblemError } from '#contract/read-answer.ts'
import type { Route } from '#contract/route.ts'
import { routes } from '#contract/routes.ts'
import { askWhetherHere, connection, noteNoAnswer } from '../device/connection.ts'
import { settleMemory } from '../device/device-store.ts'
import type { StoredItem } from '../device/device-tables.ts'
import { sayTrouble } from '../device/device-troubles.ts'
import {
  changeItem,
  fileOfItem,
  ITEM_FORM,
  isHeldBack,
  isUnsent,
  itemsOf,
} from '../device/outbox-items.ts'
import { personHere, personOnDevice } from '../device/person.ts'
import { requestOf, sendNoted, sendRequest } from './ask-server.ts'
import { readOwnAnswer } from './no-answer.ts'
import { oneSender, type Turn } from './one-sender.ts'
import { type Outcome, outcomeOfAnswer, outcomeOfError } from './outbox-outcome.ts'
import { refreshAfterSending } from './refresh-after-sending.ts'
import {
  answerFor,
  isOneAtFault,
  joinedInput,
  joinedKey,
  laneOf,
  nextTogether,
} from './send-together.ts'
import { knownMe, noteSessionEnded } from './signed-in.ts'

const ANSWER_WITHIN_MS = 30_000
/** A photo over a thin connection. */
const FILE_WITHIN_MS = 10 * 60_000

const FIRST_PAUSE_MS = 5_000
const LONGEST_PAUSE_MS = 10 * 60_000

/** Where a browser has no locks two windows may send the same item; its key makes it one. */
const inTurn = oneSender()

let sending: Promise<void> | null = null
let isWantedAgain = false
let timer: ReturnType<typeof setTimeout> | undefined

/** Sends what waits. Of several windows one sends; asked while it sends, it looks once more. */
export function sendWaiting(): Promise<void> {
  if (sending !== null) isWantedAgain = true
  sending ??= sendInTurn()
    .catch(sayTrouble)
    .finally(() => {
      sending = null
    })
  return sending
}

/** Why an item that another version of the page wrote is not sent; null for all others. */
export function problemOfOldItem({ form, name }: StoredItem): string | null {
  if (form > ITEM_FORM) {
    return 'Entered with a newer version of this page. It waits on the device until that version runs again.'
  }
  if (name in routes) return null
  return 'Entered with an older version of this page; this one cannot send it. It stays on the device.'
}

async function sendInTurn(): Promise<void> {
  do {
    isWantedAgain = false
    await inTurn(sendAll)
  } while (isWantedAgain)
}

async function sendAll({ isMine }: Turn): Promise<void> {
  clearTimeout(timer)
  const personId = personHere.get()
  if (personId === null) return
  await settleMemory().catch(sayTrouble)
  if (!(await itemsOf(personId)).some(isUnsent)) return
  if (!connection.get().isHere && !(await askWhetherHere())) return
  await takeUpBroken(personId)
  /** Jobs whose next item the server could not take for now; what follows in them waits too. */
  const held = new Map<string, StoredItem>()
  const alone = new Set<string>()
  for (;;) {
    const items = nextTogether(await openItems(personId, held), alone)
    const [first] = items
    // Somebody else may have signed in meanwhile, also in another window: then the session is theirs.
    if (!first || knownMe()?.id !== personId || (await personOnDevice()) !== personId) break
    if (!(await isMine())) return
    const outcome = await sendItems(items)
    if (outcome === 'one at fault') for (const { id } of items) alone.add(id)
    if (outcome === 'told' || outcome === 'one at fault') continue
    if (outcome.isSignInNeeded) noteSessionEnded()
    if (outcome.isSignInNeeded || !connection.get().isHere) return
    held.set(laneOf(first), first)
  }
  if (held.size > 0) tryLater(Math.min(...[...held.values()].map(({ tries }) => tries)))
}

/** What was under way when a page was closed, crashed or was replaced: no answer is known of it. */
async function takeUpBroken(personId: string): Promise<void> {
  for (const { id, state } of await itemsOf(personId)) {
    if (state === 'sending') await changeItem(id, (item) => ({ ...item, state: 'waiting' }))
  }
}

/** What may be sent now, in its order. */
async function openItems(
  personId: string,
  held: ReadonlyMap<string, StoredItem>,
): Promise<StoredItem[]> {
  const all = await itemsOf(personId)
  return all.filter(
    (item) =>
      item.state === 'waiting' &&
      !held.has(laneOf(item)) &&
      !isHeldBack(item, all) &&
      problemOfOldItem(item) === null,
  )
}

type Waiting = Extract<Outcome, { state: 'waiting' }>

/** Sends in one request; told is what the server said of each, also that it refuses it. */
async function sendItems(items: readonly StoredItem[]): Promise<'told' | 'one at fault' | Waiting> {
  const tried: StoredItem[] = []
  for (const { id } of items) {
    const item = await changeItem(id, (before) => {
      if (before.state !== 'waiting') return
      const { problem, ...rest } = before
      return { ...rest, state: 'sending', tries: before.tries + 1 }
    })
    // Else it was set aside in another window just now.
    if (item?.state === 'sending') tried.push(item)
  }
  const [first] = tried
  if (!first) return 'told'
  const sent = await askFor(first, tried)
  const isSplit = 'error' in sent && tried.length > 1 && isOneAtFault(sent.error)
  for (const item of tried) await note(item, isSplit ? SPLIT : outcomeFor(item, sent))
  if (isSplit) return 'one at fault'
  const outcome = outcomeFor(first, sent)
  if (outcome.state === 'waiting') return outcome
  refreshAfterSending(first)
  return 'told'
}

const SPLIT: Outcome = { state: 'waiting', problem: 'Sent once more by itself.' }

/** Keeps with the item what became of it. */
async function note(item: StoredItem, outcome: Outcome): Promise<void> {
  if (outcome.state === 'kept') await bringForward(item, outcome.answer)
  const { isSignInNeeded, ...said } = outcome as Outcome & { isSignInNeeded?: boolean }
  await changeItem(item.id, (before) =>
    isStillOf(before, item, outcome) ? { ...before, ...said } : undefined,
  )
}

/**
 * Whether what became of a try still tells something: another window may have taken the item over
 * from one that slept. That the server has it stays true; all else is known better by the newer try.
 */
function isStillOf(before: StoredItem, tried: StoredItem, outcome: Outcome): boolean {
  return outcome.state === 'kept'
    ? isUnsent(before) && before.key === tried.key
    : before.state === 'sending' && before.tries === tried.tries
}

type Sent = { readonly answer: unknown } | { readonly error: unknown }

async function askFor(first: StoredItem, items: readonly StoredItem[]): Promise<Sent> {
  const route: Route = routes[first.name as keyof typeof routes]
  const signal = AbortSignal.timeout(first.hasFile ? FILE_WITHIN_MS : ANSWER_WITHIN_MS)
  try {
    const file = first.hasFile ? await fileOfItem(first.id) : null
    const input = { ...(joinedInput(items) as object), ...(file && { file }) }
    const request = requestOf(route, input as never, joinedKey(items))
    const answer = await sendNoted(request, sendRequest, signal)
    return { answer: await readOwnAnswer(route, answer) }
  } catch (error) {
    if (!(error instanceof ProblemError)) noteNoAnswer()
    return { error }
  }
}

function outcomeFor(item: StoredItem, sent: Sent): Outcome {
  return 'error' in sent
    ? outcomeOfError(sent.error)
    : outcomeOfAnswer(item.name, answerFor(item, sent.answer))
}

/**
 * What was entered on top of this item names the version that stood before it; now it is told the
 * one that the item made. Done before the item counts as kept, so that a crash in between only
 * repeats it.
 */
async function bringForward({ id, personId }: StoredItem, answer: unknown): Promise<void> {
  const version = (answer as { version?: unknown } | null)?.version
  if (typeof version !== 'number') return
  for (const later of await itemsOf(personId)) {
    if (!later.after.includes(id) || !isUnsent(later)) continue
    await changeItem(later.id, (item) => ({ ...item, input: withVersion(item.input, version) }))
  }
}

function withVersion(input: unknown, version: number): unknown {
  const { body } = input as { body?: { version?: unknown } }
  if (typeof body?.version !== 'number') return input
  return { ...(input as object), body: { ...body, version } }
}

function tryLater(tries: number): void {
  const pauseMs = Math.min(FIRST_PAUSE_MS * 2 ** tries, LONGEST_PAUSE_MS)
  timer = setTimeout(() => void sendWaiting(), pauseMs)
}
