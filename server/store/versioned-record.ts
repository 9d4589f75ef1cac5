import type { Kysely, Transaction } from 'kysely'
import type { DeletedItem, HistoryEntry, Stamp, Written } from '../services/ports.ts'
import type { Database } from './database.ts'
import { appendAll, appendHistory } from './history.ts'
import { portionsOf, ROWS_AT_ONCE } from './portions.ts'
import type { Tables } from './tables.ts'

/** Columns that the table of every kind of versioned record has. */
export interface VersionedRow {
  readonly id: string
  /** Empty for what belongs to no feeder. */
  readonly feeder_id: string
  /** Grows by one with every change, whatever it is. */
  readonly version: number
  readonly deleted_at: string | null
}

/** One kind of record: where it is kept, and how it is answered and remembered. */
export interface RecordKind<Row extends VersionedRow, Kept> {
  readonly subject: HistoryEntry['subject']
  readonly table: keyof Tables
  readonly recordOf: (row: Row) => Kept
  /** What the history says of it; the same when left out. */
  readonly rememberedOf?: (row: Row) => unknown
  /** Columns that say who wrote last and when; none where only the history says it. */
  readonly touched: (stamp: Stamp) => Partial<Row>
}

/** The feeder may be left out where ids are unique by themselves. */
export type RecordKey = Pick<VersionedRow, 'id'> & Partial<Pick<VersionedRow, 'feeder_id'>>

/** Each change is one transaction with its history entry, or a part of the one under way. */
export interface VersionedRecords<Row extends VersionedRow, Kept> {
  /** Deleted ones too. */
  find(key: RecordKey): Promise<Kept | null>
  /** Those of a feeder that are not deleted, by id. */
  list(feederId: string): Promise<Kept[]>
  /** With what each is, in words. */
  listDeleted(feederId: string, inWords: (record: Kept) => string): Promise<DeletedItem[]>
  /** Ids of all that a feeder has or had, purged ones too. */
  everHeld(feederId: string): Promise<ReadonlySet<string>>
  /** The row is its first version. */
  add(row: Row, stamp: Stamp): Promise<Kept>
  addAll(rows: readonly Row[], stamp: Stamp): Promise<void>
  /** The version of the others is the one that the person saw; `stale` where another stands. */
  change(
    key: RecordKey,
    version: number,
    columns: Partial<Row>,
    stamp: Stamp,
  ): Promise<Written<Kept>>
  /**
   * For what has an id of its own before it is recorded: adds it, changes it, or brings a deleted
   * one back with what is said now. Version 0 says that the person saw none. The version of the row
   * does not matter.
   */
  put(row: Row, version: number, stamp: Stamp): Promise<Written<Kept>>
  delete(key: RecordKey, version: number, stamp: Stamp): Promise<Written<Kept>>
  restore(key: RecordKey, version: number, stamp: Stamp): Promise<Written<Kept>>
  /** Takes out the row of a deleted record for good; what the history says of it stays. */
  purge(key: RecordKey, version: number, reason: string, stamp: Stamp): Promise<Written<Kept>>
}

export function versionedRecords<Row extends VersionedRow, Kept>(
  db: Database,
  kind: RecordKind<Row, Kept>,
): VersionedRecords<Row, Kept> {
  const { recordOf, touched } = kind
  const rows = rowsOf<Row>(kind.table)

  /** `act` gives the record as it was written, or null where its state does not allow that. */
  const settle = (
    key: RecordKey,
    version: number,
    act: (transaction: Transaction<Tables>, row: Row) => Promise<Kept> | null,
  ): Promise<Written<Kept>> =>
    db.transaction(async (transaction) => {
      const row = await rows.find(transaction, key)
      if (!row) return { status: 'missing' }
      const current = recordOf(row)
      if (row.version !== version) return { status: 'stale', current }
      const record = await act(transaction, row)
      return record === null ? { status: 'wrong-state', current } : { status: 'written', record }
    })

  const replace = async (
    transaction: Transaction<Tables>,
    row: Row,
    columns: Partial<Row>,
    stamp: Stamp,
  ): Promise<Kept> => {
    const changed = { ...row, ...columns, ...touched(stamp), version: row.version + 1 }
    await rows.replace(transaction, changed)
    const [before, after] = [remembered(kind, row), remembered(kind, changed)]
    await appendHistory(transaction, { ...entryOf(kind, changed), before, after }, stamp)
    return recordOf(changed)
  }

  const addAll = (added: readonly Row[], stamp: Stamp): Promise<void> =>
    db.transaction(async (transaction) => {
      const changes = added.map((row) => ({
        ...entryOf(kind, row),
        before: null,
        after: remembered(kind, row),
      }))
      await rows.insert(transaction, added)
      await appendAll(transaction, changes, stamp)
    })

  return {
    find: async (key) => {
      const row = await rows.find(db.query, key)
      return row ? recordOf(row) : null
    },
    list: async (feederId) => (await rows.standing(db.query, feederId)).map(recordOf),
    listDeleted: async (feederId, inWords) => {
      const deleters = await deletersOf(db, kind.subject, feederId)
      return (await rows.deleted(db.query, feederId)).map((row) => ({
        ...entryOf(kind, row),
        feederId,
        what: inWords(recordOf(row)),
        deletedAt: row.deleted_at ?? '',
        deletedBy: deleters.get(`${row.id} ${row.version}`) ?? '',
      }))
    },
    everHeld: async (feederId) => {
      const entries = await db.query
        .selectFrom('history')
        .select('subject_id')
        .where('subject', '=', kind.subject)
        .where('feeder_id', '=', feederId)
        .execute()
      return new Set(entries.map(({ subject_id }) => subject_id))
    },
    add: async (row, stamp) => {
      await addAll([row], stamp)
      return recordOf(row)
    },
    addAll,
    change: (key, version, columns, stamp) =>
      settle(key, version, (transaction, row) =>
        row.deleted_at === null ? replace(transaction, row, columns, stamp) : null,
      ),
    put: (row, version, stamp) =>
      db.transaction(async (transaction) => {
        const standing = await rows.find(transaction, row)
        const isThere = standing !== undefined && standing.deleted_at === null
        if (standing && version !== (isThere ? standing.version : 0)) {
          return { status: 'stale', current: recordOf(standing) }
        }
        if (standing) {
          const record = await replace(transaction, standing, { ...row, deleted_at: null }, stamp)
          return { status: 'written', record }
        }
        if (version !== 0) return { status: 'missing' }
        const first = { ...row, version: (await lastVersion(transaction, kind, row)) + 1 }
        await addAll([first], stamp)
        return { status: 'written', record: recordOf(first) }
      }),
    delete: (key, version, stamp) =>
      settle(key, version, (transaction, row) =>
        row.deleted_at === null ? replace(transaction, row, deletion<Row>(stamp.at), stamp) : null,
      ),
    restore: (key, version, stamp) =>
      settle(key, version, (transaction, row) =>
        row.deleted_at === null ? null : replace(transaction, row, deletion<Row>(null), stamp),
      ),
    purge: (key, version, reason, stamp) =>
      settle(key, version, (transaction, row) =>
        row.deleted_at === null ? null : purgeRow(kind, transaction, row, reason, stamp),
      ),
  }
}

async function purgeRow<Row extends VersionedRow, Kept>(
  kind: RecordKind<Row, Kept>,
  transaction: Transaction<Tables>,
  row: Row,
  reason: string,
  stamp: Stamp,
): Promise<Kept> {
  const before = remembered(kind, row)
  await rowsOf<Row>(kind.table).remove(transaction, row)
  const entry = { ...entryOf(kind, row), version: row.version + 1, reason, before, after: null }
  await appendHistory(transaction, entry, stamp)
  return kind.recordOf(row)
}

/** How the history tells a row. */
export function remembered<Row extends VersionedRow, Kept>(
  { recordOf, rememberedOf = recordOf }: RecordKind<Row, Kept>,
  row: Row,
): unknown {
  return rememberedOf(row)
}

function entryOf<Row extends VersionedRow, Kept>({ subject }: RecordKind<Row, Kept>, row: Row) {
  const feederId = row.feeder_id === '' ? null : row.feeder_id
  return { subject, feederId, subjectId: row.id, version: row.version }
}

/** That of the newest entry of the history, 0 where there is none: what was purged may come anew. */
async function lastVersion<Row extends VersionedRow, Kept>(
  transaction: Transaction<Tables>,
  { subject }: RecordKind<Row, Kept>,
  { id, feeder_id }: Row,
): Promise<number> {
  const entry = await transaction
    .selectFrom('history')
    .select((select) => select.fn.max<number | null>('version').as('version'))
    .where('subject', '=', subject)
    .where('subject_id', '=', id)
    .where('feeder_id', '=', feeder_id)
    .executeTakeFirst()
  return entry?.version ?? 0
}

/** Who made each deletion, by id and version: not every table says who wrote last. */
async function deletersOf(db: Database, subject: string, feederId: string) {
  const entries = await db.query
    .selectFrom('history')
    .select(['subject_id', 'version', 'actor_id'])
    .where('subject', '=', subject)
    .where('feeder_id', '=', feederId)
    .where('what', '=', 'deleted')
    .execute()
  return new Map(entries.map((entry) => [`${entry.subject_id} ${entry.version}`, entry.actor_id]))
}

function deletion<Row extends VersionedRow>(at: string | null): Partial<Row> {
  const columns: Partial<VersionedRow> = { deleted_at: at }
  return columns as Partial<Row>
}

/** All tables of versioned records, seen by the columns that they share. */
type SharedColumns = Record<string, VersionedRow>

/** The statements on one such table. */
function rowsOf<Row extends VersionedRow>(table: keyof Tables) {
  const seen = (db: Kysely<Tables>) => db as unknown as Kysely<SharedColumns>
  const ofFeeder = (db: Kysely<Tables>, feederId: string) =>
    seen(db).selectFrom(table).selectAll().where('feeder_id', '=', feederId)
  return {
    find: async (db: Kysely<Tables>, { id, feeder_id }: RecordKey) => {
      const row = await seen(db)
        .selectFrom(table)
        .selectAll()
        .where('id', '=', id)
        .$if(feeder_id !== undefined, (query) => query.where('feeder_id', '=', feeder_id ?? ''))
        .executeTakeFirst()
      return row as Row | undefined
    },
    standing: async (db: Kysely<Tables>, feederId: string) =>
      (await ofFeeder(db, feederId)
        .where('deleted_at', 'is', null)
        .orderBy('id')
        .execute()) as VersionedRow[] as Row[],
    deleted: async (db: Kysely<Tables>, feederId: string) =>
      (await ofFeeder(db, feederId)
        .where('deleted_at', 'is not', null)
        .execute()) as VersionedRow[] as Row[],
    insert: async (db: Transaction<Tables>, rows: readonly Row[]) => {
      for (const portion of portionsOf(rows, ROWS_AT_ONCE)) {
        await seen(db).insertInto(table).values(portion).execute()
      }
    },
    replace: async (db: Transaction<Tables>, row: Row) => {
      await seen(db)
        .updateTable(table)
        .set(row)
        .where('feeder_id', '=', row.feeder_id)
        .where('id', '=', row.id)
        .execute()
    },
    remove: async (db: Transaction<Tables>, row: Row) => {
      await seen(db)
        .deleteFrom(table)
        .where('feeder_id', '=', row.feeder_id)
        .where('id', '=', row.id)
        .execute()
    },
  }
}
