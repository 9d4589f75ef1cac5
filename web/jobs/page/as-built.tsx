import { builtAgainstPlan } from '#domain/jobs/built-against-plan.ts'
import { useJob } from '../../api/jobs.ts'
import { ErrorNote, LoadingNote } from '../../ui/state-note.tsx'
import { DeviationList } from './deviation-list.tsx'

/** As built against planned, of a job that is closed. */
export function AsBuilt({ jobId }: { readonly jobId: string }) {
  const { data, error, refetch } = useJob(jobId)
  if (error) {
    return (
      <ErrorNote
        title="What was built did not arrive."
        error={error}
        onRetry={() => void refetch()}
      />
    )
  }
  if (!data) return <LoadingNote what="Fetching what was built…" />
  const { job, asLeft, entries } = data
  const entered = entries.map(({ entry }) => entry)
  return (
    <section className="job-part" aria-label="As built against proposed">
      <h3>As built against proposed</h3>
      {asLeft ? (
        <DeviationList deviations={builtAgainstPlan(job.plan, asLeft.asLeft, entered)} />
      ) : (
        <p>Nothing was written down of what was left.</p>
      )}
      {job.feederVersionAfter !== null && (
        <p className="soft">
          {job.plan.bank && job.plan.kind !== 'remove a bank'
            ? `The bank stands in the model since version ${job.feederVersionAfter} of the feeder, with the settings as left.`
            : `Version ${job.feederVersionAfter} of the feeder holds what was left.`}
        </p>
      )}
      {job.closingNotes?.map((note) => (
        <p key={note}>{note}</p>
      ))}
    </section>
  )
}
