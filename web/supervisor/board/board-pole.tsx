import { useJobs } from '../../api/jobs.ts'
import { JobCard } from '../../jobs/job-card.tsx'
import { viewOfJob } from '../../jobs/job-view.ts'
import { useFeeder } from '../../state/feeder.tsx'
import { counted } from '../../state/format.ts'
import { select } from '../../state/selection.ts'
import { Button } from '../../ui/button.tsx'
import { List } from '../../ui/list.tsx'

/** The selected pole, with the jobs on it. */
export function BoardPole({ pole }: { readonly pole: string }) {
  const { feeder, poleById } = useFeeder()
  const { data } = useJobs(feeder.header.id)
  const jobs = data?.filter(({ poles }) => poles.includes(pole)) ?? []
  return (
    <section className="job-card stack" aria-label={`Pole ${pole}`}>
      <div className="board-head">
        <h2>Pole {pole}</h2>
        <Button look="plain" onClick={() => select({ pole: null })}>
          Close
        </Button>
      </div>
      {!poleById.has(pole) && <p>This feeder has no pole {pole}.</p>}
      {data && jobs.length === 0 && <p>No job is on this pole.</p>}
      {jobs.length > 0 && (
        <List label={`${counted(jobs.length, 'job')} on pole ${pole}`}>
          {jobs.map((job) => (
            <JobCard
              key={job.id}
              job={job}
              showsState
              onOpen={() => select({ view: viewOfJob(job.id) })}
            />
          ))}
        </List>
      )}
      <div className="row">
        <Button onClick={() => select({ person: 'planner', view: null })}>
          As the planner sees it
        </Button>
        <Button onClick={() => select({ person: 'coordinator', view: null })}>
          As a bird pole
        </Button>
      </div>
    </section>
  )
}
