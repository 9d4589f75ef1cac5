import { useJob } from '../../api/jobs.ts'
import { JobPage } from '../../jobs/page/job-page.tsx'
import { select } from '../../state/selection.ts'
import { viewOfProgramme } from './year-view.ts'

/** A job as the coordinator opens it; the way back leads to the programme that it comes from. */
export function ProgrammeJob({ jobId }: { readonly jobId: string }) {
  const origin = useJob(jobId).data?.job.origin
  const programmeId = origin?.kind === 'programme' ? origin.programmeId : null
  return (
    <JobPage
      jobId={jobId}
      backWords={programmeId === null ? 'Back to the year' : 'Back to the programme'}
      onBack={() => select({ view: viewOfProgramme(programmeId) })}
    />
  )
}
