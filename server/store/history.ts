import type { ExpressionBuilder, Kysely, Transaction } from 'kysely'
import type { HistoryEntry, HistoryFilter, HistoryStore, Stamp } from '../services/ports.ts'
import { Database } from './database.ts'
import { type ChainHead, hashOfEntry, NO_HASH } from './history-chain.ts'
import { portionsOf, ROWS_AT_ONCE } from './portions.ts'
import type { HistoryRow, Tables } from './tables.ts'
import { whatHappened } from './what-happened.ts'

const PAGE_ENTRIES = 500

/** A change as it is handed in; number, hashes and time come with the writing. */
export interface RecordedChange {
  readonly subject: HistoryEntry['subject']
  /** Null for what belongs to no feeder. */
  readonly feederId: string | null
  readonly subjectId: string
  /** The version that came of the change; each is written once. */
  readonly version: number
  /** Told from `before` and `after` where it is left out. */
  readonly what?: HistoryEntry['what']
  /** Why, where a reason has to be given. */
  readonly reason?: string
  /** Null for the first change. */
  readonly before: unknown
  /** Null for a purge. */
  readonly after: unknown
}

/**
 * The only way into the history. Written in the transaction of the change itself, so that neither
 * stands without the other. The order is that of the numbers, not of the times: writing is done by
 * one at a time, while a clock may be set back.
 */
export function appendHistory(
  transaction: Transaction<Tables>,
  change: RecordedChange,
  stamp: Stamp,
): Promise<void> {
  return appendAll(transaction, [change], stamp)
}

/** The same for many changes at once, in their order. */
export async function appendAll(
  transaction: Transaction<Tables>,
  changes: readonly RecordedChange[],
  stamp: Stamp,
): Promise<void> {
  let head = await headOf(transaction)
  const entries: HistoryEntry[] = []
  for (const change of changes) {
    const entry = entryAfter(head, change, stamp)
    entries.push(entry)
    head = entry
  }
  for (const rows of portionsOf(entries.map(rowOfEntry), ROWS_AT_ONCE)) {
    await transaction.insertInto('history').values(rows).execute()
  }
  for (const entry of entries) Database.of(transaction).announce(entry)
}

async function headOf(transaction: Transaction<Tables>): Promise<ChainHead> {
  const last = await transaction
    .selectFrom('history')
    .select(['seq', 'hash'])
    .orderBy('seq', 'desc')
    .limit(1)
    .executeTakeFirst()
  return last ?? { seq: 0, hash: NO_HASH }
}

function entryAfter(
  head: ChainHead,
  { reason, what, ...change }: RecordedChange,
  { actor, at, deviceAt }: Stamp,
): HistoryEntry {
  const open = asKept({
    ...change,
    seq: head.seq + 1,
    what: what ?? whatHappened(change.before, change.after),
    at,
    deviceAt: deviceAt ?? null,
    actorId: actor.id,
    actorRole: actor.role,
    reason: reason ?? null,
    previousHash: head.hash,
  })
  return { ...open, hash: hashOfEntry(open) }
}

/** As it will be read again: JSON drops what it cannot hold. */
function asKept<Entry>(entry: Entry): Entry {
  return JSON.parse(JSON.stringify(entry)) as Entry
}

export function historyRepository(db: Database): HistoryStore {
  return {
    of: async (subject, subjectId, feederId) => {
      const rows = await db.query
        .selectFrom('history')
        .selectAll()
        .where('subject', '=', subject)
        .where('subject_id', '=', subjectId)
        .$if(feederId !== undefined, (query) => query.where('feeder_id', '=', feederId ?? ''))
        .orderBy('seq')
        .execute()
      return rows.map(entryOfRow)
    },
    after: (seq, most) => entriesAfter(db.query, seq, most, {}),
    newestHashOf: async (feederId) => {
      const row = await db.query
        .selectFrom('history')
        .select('hash')
        .where('feeder_id', '=', feederId)
        .orderBy('seq', 'desc')
        .limit(1)
        .executeTakeFirst()
      return row?.hash ?? ''
    },
    newestSeq: async () => {
      const row = await db.query
        .selectFrom('history')
        .select((select) => select.fn.max<number | null>('seq').as('seq'))
        .executeTakeFirst()
      return row?.seq ?? 0
    },
    count: async (filter) => {
      const { entries } = await db.query
        .selectFrom('history')
        .select((select) => select.fn.countAll<number>().as('entries'))
        .where(matching(filter))
        .executeTakeFirstOrThrow()
      return Number(entries)
    },
    all: (filter) => readEntries(db.query, filter),
  }
}

/** Page by page, so that a long history never stands in memory whole. */
export async function* readEntries(
  db: Kysely<Tables>,
  filter: HistoryFilter = {},
): AsyncGenerator<HistoryEntry> {
  let seq = 0
  for (;;) {
    const page = await entriesAfter(db, seq, PAGE_ENTRIES, filter)
    yield* page
    seq = page.at(-1)?.seq ?? seq
    if (page.length < PAGE_ENTRIES) return
  }
}

async function entriesAfter(
  db: Kysely<Tables>,
  seq: number,
  most: number,
  filter: HistoryFilter,
): Promise<HistoryEntry[]> {
  const rows = await db
    .selectFrom('history')
    .selectAll()
    .where('seq', '>', seq)
    .where(matching(filter))
    .orderBy('seq')
    .limit(most)
    .execute()
  return rows.map(entryOfRow)
}

function matching({ subject, feederId, from, before }: HistoryFilter) {
  return (test: ExpressionBuilder<Tables, 'history'>) =>
    test.and([
      ...(subject === undefined ? [] : [test('subject', '=', subject)]),
      ...(feederId === undefined ? [] : [test('feeder_id', '=', feederId)]),
      ...(from === undefined ? [] : [test('at', '>=', from)]),
      ...(before === undefined ? [] : [test('at', '<', before)]),
    ])
}

/** No feeder is kept as an empty id, since a key cannot hold null. */
function rowOfEntry(entry: HistoryEntry): HistoryRow {
  return {
    seq: entry.seq,
    subject: entry.subject,
    feeder_id: entry.feederId ?? '',
    subject_id: entry.subjectId,
    version: entry.version,
    what: entry.what,
    at: entry.at,
    device_at: entry.deviceAt,
    actor_id: entry.actorId,
    actor_role: entry.actorRole,
    reason: entry.reason,
    before: jsonOrNull(entry.before),
    after: jsonOrNull(entry.after),
    previous_hash: entry.previousHash,
    hash: entry.hash,
  }
}

export function entryOfRow(row: HistoryRow): HistoryEntry {
  return {
    seq: row.seq,
    subject: row.subject as HistoryEntry['subject'],
    feederId: row.feeder_id === '' ? null : row.feeder_id,
    subjectId: row.subject_id,
    version: row.version,
    what: row.what as HistoryEntry['what'],
    at: row.at,
    deviceAt: row.device_at,
    actorId: row.actor_id,
    actorRole: row.actor_role as HistoryEntry['actorRole'],
    reason: row.reason,
    before: valueOrNull(row.before),
    after: valueOrNull(row.after),
    previousHash: row.previous_hash,
    hash: row.hash,
  }
}

function jsonOrNull(value: unknown): string | null {
  return value === null ? null : JSON.stringify(value)
}

function valueOrNull(text: string | null): unknown {
  return text === null ? null : JSON.parse(text)
}
