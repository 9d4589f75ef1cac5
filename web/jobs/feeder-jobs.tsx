import type { ReactNode } from 'react'
import { useMay } from '../api/account.ts'
import { useJobs } from '../api/jobs.ts'
import { useFeeder } from '../state/feeder.tsx'
import { counted } from '../state/format.ts'
import { select } from '../state/selection.ts'
import { localToday } from '../state/today.ts'
import { List } from '../ui/list.tsx'
import { EmptyNote, ErrorNote, LoadingNote } from '../ui/state-note.tsx'
import { JobCard } from './job-card.tsx'
import { inOrderOfNeed } from './job-order.ts'
import { viewOfJob } from './job-view.ts'
import { isOpen } from './job-words.ts'

interface Props {
  /** What would make the first one, as a sentence. */
  readonly howToBegin: string
  readonly children?: ReactNode
}

/** The jobs of the open feeder: open ones as they are due, closed ones folded. */
export function FeederJobs({ howToBegin, children }: Props) {
  const feederId = useFeeder().feeder.header.id
  const maySee = useMay('see jobs')
  const { data, error, isPending, refetch } = useJobs(feederId, maySee)
  if (!maySee) return null
  const jobs = inOrderOfNeed(data ?? [], localToday())
  const open = jobs.filter(({ state }) => isOpen(state))
  const closed = jobs.filter(({ state }) => !isOpen(state))
  const rows = (some: typeof jobs) =>
    some.map((job) => (
      <JobCard
        key={job.id}
        job={job}
        showsState
        onOpen={() => select({ view: viewOfJob(job.id) })}
      />
    ))
  return (
    <section className="stack" aria-label="Jobs of the crew">
      <h2>Jobs of the crew</h2>
      {children}
      {isPending && <LoadingNote what="Fetching the jobs…" />}
      {error && (
        <ErrorNote title="The jobs did not arrive." error={error} onRetry={() => void refetch()} />
      )}
      {data && open.length === 0 && <EmptyNote what={`No job is open. ${howToBegin}`} />}
      {open.length > 0 && <List label={counted(open.length, 'open job')}>{rows(open)}</List>}
      {closed.length > 0 && (
        <details className="record-fold">
          <summary>{counted(closed.length, 'closed job')}</summary>
          <List label={counted(closed.length, 'closed job')}>{rows(closed)}</List>
        </details>
      )}
    </section>
  )
}
