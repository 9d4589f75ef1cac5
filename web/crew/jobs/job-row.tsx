import type { JobSummary } from '#contract/jobs.ts'
import { useFeederList } from '../../api/feeders.ts'
import { useOnDevice } from '../../api/on-device.ts'
import { useOutbox } from '../../api/outbox.ts'
import { JobStateMark } from '../../jobs/job-state-mark.tsx'
import {
  capitalised,
  dueInWords,
  isLate,
  KIND_WORDS,
  polesInWords,
  progressInWords,
} from '../../jobs/job-words.ts'
import { useFeeder } from '../../state/feeder.tsx'
import { select, useSelection } from '../../state/selection.ts'
import { localToday } from '../../state/today.ts'
import { ListRow } from '../../ui/list.tsx'
import { viewText } from '../crew-view.ts'
import { WayNeedle } from '../way-needle.tsx'
import type { ListedJob } from './list-jobs.ts'

/** One job: what and where it is, how far, until when, how it stands, and whether it is on the device. */
export function JobRow({ listed: { job, way } }: { readonly listed: ListedJob }) {
  const { units } = useSelection()
  const today = localToday()
  return (
    <ListRow onChoose={() => openJob(job)}>
      <strong className="crew-job-title">{job.title}</strong>
      <span>
        {KIND_WORDS[job.kind]}, {polesInWords(job.poles)}
        <OtherFeeder feederId={job.feederId} />
      </span>
      {way && <WayNeedle way={way} units={units} />}
      <span className="crew-job-line">
        <JobStateMark state={job.state} />
        <span className={isLate(job, today) ? 'job-late' : undefined}>
          {capitalised(dueInWords(job, today))}
        </span>
        {job.stepsDone > 0 && <span>{progressInWords(job)}</span>}
      </span>
      <OnDeviceLine job={job} />
    </ListRow>
  )
}

function OtherFeeder({ feederId }: { readonly feederId: string }) {
  const openId = useFeeder().feeder.header.id
  const name = useFeederList().data?.find(({ id }) => id === feederId)?.name
  return feederId === openId ? null : <>, on {name ?? feederId}</>
}

function OnDeviceLine({ job }: { readonly job: JobSummary }) {
  const isKept = useOnDevice().some(({ jobId }) => jobId === job.id)
  const waiting = useOutbox({ jobId: job.id }).filter(({ state }) => state !== 'kept').length
  return (
    <span>
      {isKept ? '✓ On this device' : 'Not on this device'}
      {waiting > 0 && `; ${waiting} waiting to be sent`}
    </span>
  )
}

/** A job of another feeder opens that feeder. */
export function openJob({ id, feederId }: Pick<JobSummary, 'id' | 'feederId'>): void {
  select({ feeder: feederId, view: viewText({ part: 'job', jobId: id }), pole: null })
}
