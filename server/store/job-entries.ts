import { type Kysely, sql } from 'kysely'
import type { JobEntry } from '#domain/jobs/job-entry.ts'
import type { Job, KeptEntry } from '../services/job-ports.ts'
import type { Actor, Stamp } from '../services/ports.ts'
import { canonicalJson } from './canonical-json.ts'
import type { Database } from './database.ts'
import { appendHistory } from './history.ts'
import type { JobEntryRow, Tables } from './tables.ts'

/** What was entered in the field for a job, in the order in which it was kept. */
export async function entriesOf(db: Database, jobId: string): Promise<KeptEntry[]> {
  const rows = await db.query
    .selectFrom('job_entries')
    .selectAll()
    .where('job_id', '=', jobId)
    .orderBy('position')
    .execute()
  return rows.map(keptEntryOf)
}

/** Each with its entry in the history; its place among those of the job is the version there. */
export function addEntries(
  db: Database,
  { id, feederId }: Pick<Job, 'id' | 'feederId'>,
  entries: readonly JobEntry[],
  { actor, at }: Stamp,
): Promise<void> {
  return db.transaction(async (transaction) => {
    let position = await lastPosition(transaction, id)
    for (const entry of entries) {
      position++
      const row: JobEntryRow = {
        job_id: id,
        position,
        id: entry.id,
        entry: JSON.stringify(entry),
        device_at: entry.at,
        actor_id: actor.id,
        actor_role: actor.role,
        kept_at: at,
      }
      await transaction.insertInto('job_entries').values(row).execute()
      const change = { subject: 'job-entry', feederId, subjectId: id, version: position } as const
      const stamp = { actor, at, deviceAt: entry.at }
      await appendHistory(transaction, { ...change, before: null, after: entry }, stamp)
    }
  })
}

async function lastPosition(db: Kysely<Tables>, jobId: string): Promise<number> {
  const row = await db
    .selectFrom('job_entries')
    .select((select) => select.fn.max<number | null>('position').as('position'))
    .where('job_id', '=', jobId)
    .executeTakeFirst()
  return row?.position ?? 0
}

function keptEntryOf(row: JobEntryRow): KeptEntry {
  return {
    entry: JSON.parse(row.entry) as JobEntry,
    by: { id: row.actor_id, role: row.actor_role as Actor['role'] },
    keptAt: row.kept_at,
  }
}

/** Holds the entries of all jobs against the history. Gives in words what is not so. */
export async function checkJobEntries(db: Kysely<Tables>): Promise<string[]> {
  const { rows } = await sql<EntryWithTold>`
    select e.*, h.after as told, h.at as told_at, h.actor_id as told_by, h.actor_role as told_role
    from job_entries e left join history h
      on h.subject = 'job-entry' and h.subject_id = e.job_id and h.version = e.position
    order by e.job_id, e.position`.execute(db)
  const { rows: missing } = await sql<{ subject_id: string; version: number }>`
    select h.subject_id, h.version from history h
    where h.subject = 'job-entry' and not exists (
      select 1 from job_entries e where e.job_id = h.subject_id and e.position = h.version)
    order by h.seq`.execute(db)
  return [
    ...rows
      .filter((row) => !isAsTold(row))
      .map(({ job_id, position }) => `Entry ${position} of job ${job_id} ${IS_OTHERWISE}.`),
    ...missing.map(
      ({ subject_id, version }) => `Entry ${version} of job ${subject_id} is missing.`,
    ),
  ]
}

const IS_OTHERWISE = 'is not as the history left it'

/** Null where the history does not know the entry. */
interface EntryWithTold extends JobEntryRow {
  readonly told: string | null
  readonly told_at: string | null
  readonly told_by: string | null
  readonly told_role: string | null
}

function isAsTold(row: EntryWithTold): boolean {
  if (row.told === null) return false
  const entry = JSON.parse(row.entry) as JobEntry
  return (
    canonicalJson(entry) === canonicalJson(JSON.parse(row.told)) &&
    entry.id === row.id &&
    entry.at === row.device_at &&
    row.kept_at === row.told_at &&
    row.actor_id === row.told_by &&
    row.actor_role === row.told_role
  )
}
