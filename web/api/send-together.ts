import { EntriesSent } from '#contract/jobs.ts'
import { ProblemError } from '#contract/read-answer.ts'
import type { StoredItem } from '../device/device-tables.ts'

/** Most entries that the server takes in one request (`SendEntriesBody`). */
const MOST_ENTRIES = 200

/** Items of a job go one after the other; so do those of none. */
export function laneOf({ jobId, feederId }: StoredItem): string {
  return jobId ? `job ${jobId}` : `feeder ${feederId ?? ''}`
}

/**
 * What goes out in one request: entries of one job that follow each other, as many as the server
 * takes; all else alone. After each try without an answer half as many, so that they get through a
 * thin connection.
 *
 * @param open what may be sent now, in order; its first one is sent in any case
 * @param alone ids of what was refused together, because of one of them
 */
export function nextTogether(
  open: readonly StoredItem[],
  alone: ReadonlySet<string>,
): readonly StoredItem[] {
  const [first] = open
  if (!first) return []
  if (!canJoin(first, first, alone)) return [first]
  const ofLane = open.filter((item) => laneOf(item) === laneOf(first))
  const end = ofLane.findIndex((item) => !canJoin(item, first, alone))
  let room = Math.floor(MOST_ENTRIES / 2 ** first.tries)
  const run = ofLane.slice(0, end < 0 ? ofLane.length : end)
  const over = run.findIndex((item) => {
    room -= entriesOf(item).length
    return room < 0
  })
  return run.slice(0, over < 0 ? run.length : Math.max(1, over))
}

function canJoin(item: StoredItem, first: StoredItem, alone: ReadonlySet<string>): boolean {
  return (
    item.name === 'sendEntries' &&
    !alone.has(item.id) &&
    entriesOf(item).length > 0 &&
    inputOf(item).params?.jobId === inputOf(first).params?.jobId
  )
}

interface EntriesInput {
  readonly params?: { readonly jobId?: unknown }
  readonly body?: { readonly entries?: unknown }
}

const inputOf = ({ input }: StoredItem): EntriesInput => (input ?? {}) as EntriesInput

function entriesOf(item: StoredItem): readonly { readonly id?: unknown }[] {
  const entries = inputOf(item).body?.entries
  return Array.isArray(entries) ? entries : []
}

/** The input of one request for all of them. */
export function joinedInput(items: readonly StoredItem[]): unknown {
  const [first] = items
  if (!first || items.length === 1) return first?.input
  return { ...inputOf(first), body: { entries: items.flatMap(entriesOf) } }
}

/**
 * Its idempotency key. Entries sent together need none: each has an id of its own, by which the
 * server knows what it has already, however they are put together next time.
 */
export function joinedKey(items: readonly StoredItem[]): string | null {
  return items.length === 1 ? (items[0]?.key ?? null) : null
}

/** What of the answer is about this item: of entries the server says one by one what became of them. */
export function answerFor(item: StoredItem, answer: unknown): unknown {
  const sent = EntriesSent.safeParse(answer).data
  if (item.name !== 'sendEntries' || !sent) return answer
  const own = new Set(entriesOf(item).map(({ id }) => id))
  return { outcomes: sent.outcomes.filter(({ id }) => own.has(id)) }
}

/** Whether one of several may be at fault for a refusal of all: each is then sent alone. */
export function isOneAtFault(error: unknown): boolean {
  return (
    error instanceof ProblemError &&
    (error.problem.code === 'malformed-request' || error.problem.code === 'too-large')
  )
}
