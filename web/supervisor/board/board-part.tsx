import { useState } from 'react'
import type { JobSummary } from '#contract/jobs.ts'
import { useMay } from '../../api/account.ts'
import { useJobs } from '../../api/jobs.ts'
import { JobCard } from '../../jobs/job-card.tsx'
import { JobStateMark } from '../../jobs/job-state-mark.tsx'
import { viewOfJob } from '../../jobs/job-view.ts'
import { RecordFoot } from '../../record/record-foot.tsx'
import { useFeeder } from '../../state/feeder.tsx'
import { counted } from '../../state/format.ts'
import { select, useSelection } from '../../state/selection.ts'
import { localToday } from '../../state/today.ts'
import { Button } from '../../ui/button.tsx'
import { List } from '../../ui/list.tsx'
import { EmptyNote, ErrorNote, LoadingNote } from '../../ui/state-note.tsx'
import { boardColumns, boardLine, type Column } from './board-columns.ts'
import { BoardPole } from './board-pole.tsx'

/** Jobs by their state: what came back and what is late first. */
export function BoardPart() {
  const feederId = useFeeder().feeder.header.id
  const [isOfAll, setIsOfAll] = useState(false)
  const { pole } = useSelection()
  const { data, error, isPending, refetch } = useJobs(isOfAll ? null : feederId)
  const mayDraft = useMay('draft or change a job')
  const jobs = data ?? []
  return (
    <section className="stack" aria-label="Board of jobs">
      {pole !== null && <BoardPole pole={pole} />}
      {data && <h1 className="board-line">{boardLine(jobs, localToday())}</h1>}
      <div className="row">
        <Button isPressed={!isOfAll} onClick={() => setIsOfAll(false)}>
          This feeder
        </Button>
        <Button isPressed={isOfAll} onClick={() => setIsOfAll(true)}>
          All feeders
        </Button>
        {mayDraft && (
          <Button look="plain" onClick={() => select({ view: 'draft' })}>
            Draft a job by hand
          </Button>
        )}
      </div>
      {isPending && <LoadingNote what="Fetching the jobs…" />}
      {error && (
        <ErrorNote title="The jobs did not arrive." error={error} onRetry={() => void refetch()} />
      )}
      {data?.length === 0 && (
        <EmptyNote
          what={`No job ${isOfAll ? 'at all' : 'on this feeder'} yet. A planner hands over a kept proposal, a coordinator a round of a programme.`}
        />
      )}
      <div className="board">
        {boardColumns(jobs, localToday()).map((column) => (
          <BoardColumn key={column.state} column={column} />
        ))}
      </div>
      <RecordFoot />
    </section>
  )
}

const CLOSED_SHOWN = 5

function BoardColumn({ column: { state, jobs, late } }: { readonly column: Column }) {
  const [isWhole, setIsWhole] = useState(state !== 'closed')
  const shown = isWhole ? jobs : jobs.slice(0, CLOSED_SHOWN)
  const name = `${counted(jobs.length, 'job')}, ${state}`
  return (
    <section className="board-column" aria-label={name}>
      <h3 className="board-head">
        <JobStateMark state={state} />
        <span className="board-count">{jobs.length}</span>
      </h3>
      {late > 0 && <p className="job-late">{late} late</p>}
      <List label={name}>
        {shown.map((job) => (
          <JobCard key={job.id} job={job} onOpen={() => openJob(job)} />
        ))}
      </List>
      {shown.length < jobs.length && (
        <Button onClick={() => setIsWhole(true)}>Show all {jobs.length}</Button>
      )}
    </section>
  )
}

/** Brings its feeder along, where it is another. */
export function openJob({ id, feederId }: Pick<JobSummary, 'id' | 'feederId'>): void {
  select({ feeder: feederId, view: viewOfJob(id) })
}
