import { useState } from 'react'
import type { Round } from '#domain/avian/programme/programme.ts'
import { useMay } from '../../api/account.ts'
import { useJobs } from '../../api/jobs.ts'
import { HandOverForm } from '../../jobs/hand-over-form.tsx'
import { JobCard } from '../../jobs/job-card.tsx'
import { viewOfJob } from '../../jobs/job-view.ts'
import { useFeeder } from '../../state/feeder.tsx'
import { select } from '../../state/selection.ts'
import { Button } from '../../ui/button.tsx'
import { List } from '../../ui/list.tsx'
import { ErrorNote } from '../../ui/state-note.tsx'

interface Props {
  readonly programmeId: string
  /** Of the programme. */
  readonly name: string
  readonly round: Round
  readonly index: number
}

/** The job of a round and its state, or the step that hands the round to the crew. */
export function RoundJob({ programmeId, name, round, index }: Props) {
  const feederId = useFeeder().feeder.header.id
  const maySee = useMay('see jobs')
  const mayDraft = useMay('draft or change a job')
  const { data, error, refetch } = useJobs(feederId, maySee)
  const [isAsking, setIsAsking] = useState(false)
  if (error) {
    return (
      <ErrorNote
        title="Whether the round is a job already is not known."
        error={error}
        onRetry={() => void refetch()}
      />
    )
  }
  if (!data) return null
  const jobs = data.filter(
    ({ origin }) =>
      origin.kind === 'programme' && origin.programmeId === programmeId && origin.round === index,
  )
  const open = (id: string) => select({ view: viewOfJob(id) })
  if (jobs.length > 0) {
    return (
      <List label={`Job of round ${index + 1}`}>
        {jobs.map((job) => (
          <JobCard key={job.id} job={job} showsState onOpen={() => open(job.id)} />
        ))}
      </List>
    )
  }
  if (!mayDraft) return null
  if (!isAsking) {
    return (
      <div>
        <Button onClick={() => setIsAsking(true)}>Hand round {index + 1} to the crew</Button>
      </div>
    )
  }
  return (
    <HandOverForm
      draftKey={`programme~${programmeId}~${index}`}
      what={`round ${index + 1} of ${name}`}
      origin={{ kind: 'programme', programmeId, round: index }}
      suggestedTitle={`${name.slice(0, 90)}, round ${index + 1}`}
      suggestedDue={round.latest}
      onGiveUp={() => setIsAsking(false)}
      onDrafted={({ id }) => open(id)}
    />
  )
}
