import { useJobs } from '../../api/jobs.ts'
import { JobStateMark } from '../../jobs/job-state-mark.tsx'
import { KIND_WORDS } from '../../jobs/job-words.ts'
import { useFeeder } from '../../state/feeder.tsx'
import { List, ListRow } from '../../ui/list.tsx'
import { openCrewView } from '../open-crew-view.ts'

/** Work that is planned at a pole, so that whoever finds the pole finds the job; nothing else. */
export function JobsAtPole({ poleId }: { readonly poleId: string }) {
  const { id: feederId } = useFeeder().feeder.header
  const jobs = (useJobs(null).data ?? []).filter(
    (job) => job.feederId === feederId && job.state !== 'closed' && job.poles.includes(poleId),
  )
  if (jobs.length === 0) return null
  return (
    <section className="stack" aria-label="Jobs at this pole">
      <h3>Jobs at this pole</h3>
      <List label="Jobs at this pole">
        {jobs.map(({ id, title, kind, state }) => (
          <ListRow key={id} onChoose={() => openCrewView({ part: 'job', jobId: id }, poleId)}>
            <strong>{title}</strong>
            <span>{KIND_WORDS[kind]}</span>
            <JobStateMark state={state} />
          </ListRow>
        ))}
      </List>
    </section>
  )
}
