import { createHash } from 'node:crypto'
import type { Job, JobHead, JobStore, ListedJob, Progress } from '../services/job-ports.ts'
import { bodyRow, keptOf, touchedBody } from './body-record.ts'
import type { Database } from './database.ts'
import { addEntries, entriesOf } from './job-entries.ts'
import type { JobRow } from './tables.ts'
import { type RecordKind, versionedRecords } from './versioned-record.ts'

/** What a row of a job keeps as JSON beside its plan. */
type JobBody = Pick<
  Job,
  | 'note'
  | 'crew'
  | 'feederVersion'
  | 'feederVersionAfter'
  | 'origin'
  | 'stateSince'
  | 'reason'
  | 'closingNotes'
> & { readonly poles: readonly string[]; readonly progress: Progress }

/** The plan never changes, so the history only says which it is. */
export const JOB_KIND: RecordKind<JobRow, Job> = {
  subject: 'job',
  table: 'jobs',
  recordOf: (row) => {
    const { poles: _poles, progress: _progress, ...body } = bodyOf(row)
    return { ...headOf(row), ...body, plan: JSON.parse(row.plan) as Job['plan'], ...keptOf(row) }
  },
  rememberedOf: (row) => ({
    ...headOf(row),
    kind: row.kind,
    ...bodyOf(row),
    planSha256: createHash('sha256').update(row.plan).digest('hex'),
    ...keptOf(row),
  }),
  touched: touchedBody,
}

export function jobRepository(db: Database): JobStore {
  const records = versionedRecords(db, JOB_KIND)
  const bodyNow = async (id: string): Promise<JobBody | null> => {
    const row = await db.query
      .selectFrom('jobs')
      .select('body')
      .where('id', '=', id)
      .executeTakeFirst()
    return row ? (JSON.parse(row.body) as JobBody) : null
  }
  const changeBody = (
    id: string,
    version: number,
    columns: Partial<JobRow>,
    body: Partial<JobBody>,
    stamp: Parameters<JobStore['change']>[3],
  ) =>
    db.transaction(async () => {
      const now = { ...(await bodyNow(id)), ...body }
      return records.change({ id }, version, { ...columns, body: JSON.stringify(now) }, stamp)
    })
  return {
    list: (feederId) => listStanding(db, feederId),
    find: (id) => records.find({ id }),
    add: ({ id, feederId, feederVersion, head, origin, plan, stepsAll }, stamp) => {
      const { title, dueOn, note, crew } = head
      const body: JobBody = {
        ...{ note, crew, feederVersion, origin },
        feederVersionAfter: null,
        stateSince: stamp.at,
        reason: '',
        poles: plan.poles.map(({ pole }) => pole),
        progress: { stepsDone: 0, stepsAll, deviations: 0 },
      }
      const columns = { title, kind: plan.kind, state: 'drafted', due_on: dueOn ?? null }
      const row = { ...bodyRow(feederId, id, body, stamp), ...columns, plan: JSON.stringify(plan) }
      return records.add(row, stamp)
    },
    change: (id, version, { title, dueOn, note, crew }: JobHead, stamp) =>
      changeBody(id, version, { title, due_on: dueOn ?? null }, { note, crew }, stamp),
    move: (id, version, { state, closingNotes, ...moved }, stamp) => {
      const notes = closingNotes && { closingNotes: [...closingNotes] }
      const body = { ...moved, ...notes, stateSince: stamp.at }
      return changeBody(id, version, { state }, body, stamp)
    },
    delete: (id, version, stamp) => records.delete({ id }, version, stamp),
    restore: (id, version, stamp) => records.restore({ id }, version, stamp),
    listDeleted: (feederId) => records.listDeleted(feederId, ({ title }) => title),
    purge: (feederId, id, version, reason, stamp) =>
      records.purge({ id, feeder_id: feederId }, version, reason, stamp),
    entries: (id) => entriesOf(db, id),
    addEntries: (job, entries, stamp) => addEntries(db, job, entries, stamp),
  }
}

type RowWithoutPlan = Omit<JobRow, 'plan'>

function bodyOf(row: RowWithoutPlan): JobBody {
  return JSON.parse(row.body) as JobBody
}

function headOf({ id, feeder_id, title, due_on, state }: RowWithoutPlan) {
  return {
    id,
    feederId: feeder_id,
    title,
    ...(due_on !== null && { dueOn: due_on }),
    state: state as Job['state'],
  }
}

async function listStanding(db: Database, feederId: string | undefined): Promise<ListedJob[]> {
  const rows = await db.query
    .selectFrom('jobs')
    .select(['id', 'feeder_id', 'version', 'title', 'kind', 'state', 'due_on', 'body'])
    .select(['actor_id', 'actor_role', 'changed_at', 'deleted_at'])
    .select((select) =>
      select
        .selectFrom('job_entries')
        .select((count) => count.fn.countAll<number>().as('entries'))
        .whereRef('job_entries.job_id', '=', 'jobs.id')
        .as('entries'),
    )
    .where('deleted_at', 'is', null)
    .$if(feederId !== undefined, (query) => query.where('feeder_id', '=', feederId ?? ''))
    .execute()
  return rows.map(listedOf).sort(dueFirst)
}

function listedOf({ entries, ...row }: RowWithoutPlan & { entries: unknown }): ListedJob {
  const { poles, ...body } = bodyOf(row)
  return {
    ...headOf(row),
    ...body,
    kind: row.kind as ListedJob['kind'],
    poles: [...poles],
    entries: Number(entries),
    ...keptOf(row),
  }
}

/** What is due at no day comes last; the same day in the order of titles. */
function dueFirst(left: ListedJob, right: ListedJob): number {
  const order = (job: ListedJob) => `${job.dueOn ?? '9999'} ${job.title} ${job.id}`
  return order(left) < order(right) ? -1 : 1
}
