import { type Kysely, sql } from 'kysely'
import { canonicalJson } from './canonical-json.ts'
import type { Tables } from './tables.ts'
import { type RecordKind, remembered, type VersionedRow } from './versioned-record.ts'

const PAGE_ROWS = 500

interface RowWithEntry {
  readonly row: VersionedRow
  /** What the history says of that version; undefined where it says nothing. */
  readonly after: string | null | undefined
}

/**
 * Holds the rows of one kind of record against the history: each is as its last entry left it, and
 * none is missing. Gives in words what is not so.
 */
export async function checkRows<Row extends VersionedRow, Kept>(
  db: Kysely<Tables>,
  kind: RecordKind<Row, Kept>,
): Promise<string[]> {
  const faults: string[] = []
  for await (const { row, after } of rowsWithEntries(db, kind.table, kind.subject)) {
    const fault = faultOf(remembered(kind, row as Row), row.version, after)
    if (fault) faults.push(`The ${nameOf(kind.subject, row.feeder_id, row.id)} ${fault}.`)
  }
  for (const { feeder_id, subject_id } of await missingRows(db, kind.table, kind.subject)) {
    const name = nameOf(kind.subject, feeder_id, subject_id)
    faults.push(`The ${name} is missing, though the history does not say that it was purged.`)
  }
  return faults
}

function nameOf(subject: string, feederId: string, id: string): string {
  return `${subject} ${id} of feeder ${feederId}`
}

/** The first proposals were remembered without their version; the entry itself has it. */
function faultOf(
  record: unknown,
  version: number,
  after: string | null | undefined,
): string | null {
  if (after === undefined) return 'has a version that the history does not know'
  const told = after === null ? null : { version, ...(JSON.parse(after) as object) }
  return canonicalJson(record) === canonicalJson(told) ? null : 'is not as the history left it'
}

async function* rowsWithEntries(
  db: Kysely<Tables>,
  table: keyof Tables,
  subject: string,
): AsyncGenerator<RowWithEntry> {
  let last = { feeder_id: '', id: '' }
  for (;;) {
    const { rows } = await sql<VersionedRow & { after_change: string | null; is_known: number }>`
      select t.*, h.after as after_change, case when h.seq is null then 0 else 1 end as is_known
      from ${sql.table(table)} t left join history h
        on h.subject = ${subject} and h.subject_id = t.id and h.feeder_id = t.feeder_id
        and h.version = t.version
      where t.feeder_id > ${last.feeder_id} or (t.feeder_id = ${last.feeder_id} and t.id > ${last.id})
      order by t.feeder_id, t.id limit ${PAGE_ROWS}`.execute(db)
    for (const { after_change, is_known, ...row } of rows) {
      yield { row, after: is_known === 1 ? after_change : undefined }
    }
    last = rows.at(-1) ?? last
    if (rows.length < PAGE_ROWS) return
  }
}

async function missingRows(db: Kysely<Tables>, table: keyof Tables, subject: string) {
  const { rows } = await sql<{ feeder_id: string; subject_id: string }>`
    select h.feeder_id, h.subject_id from history h
    where h.subject = ${subject} and h.what <> 'purged'
      and not exists (select 1 from history later where later.subject = h.subject
        and later.subject_id = h.subject_id and later.feeder_id = h.feeder_id
        and later.version > h.version)
      and not exists (select 1 from ${sql.table(table)} t
        where t.id = h.subject_id and t.feeder_id = h.feeder_id)
    order by h.seq`.execute(db)
  return rows
}
