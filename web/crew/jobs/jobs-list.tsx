import { useJobs } from '../../api/jobs.ts'
import { useFeeder } from '../../state/feeder.tsx'
import { counted } from '../../state/format.ts'
import { useSelection } from '../../state/selection.ts'
import { localToday } from '../../state/today.ts'
import { Button } from '../../ui/button.tsx'
import { List } from '../../ui/list.tsx'
import { EmptyNote, ErrorNote, LoadingNote } from '../../ui/state-note.tsx'
import { DeviceHealth } from '../device/device-health.tsx'
import { KeptList } from '../device/kept-list.tsx'
import { TakeToday } from '../device/take-today.tsx'
import { useDevicePosition } from '../device-position.ts'
import { positionOfPole, useKnownFeeders } from '../known-feeders.ts'
import { NearMe } from '../near-me.tsx'
import { openCrewView } from '../open-crew-view.ts'
import { JobRow } from './job-row.tsx'
import { type ListedJob, listJobs, todaysJobs } from './list-jobs.ts'

/** What the crew is sent out for, of all feeders: nearest first where the device knows its place. */
export function JobsList() {
  const { data, error, isPending, refetch } = useJobs(null)
  const { units } = useSelection()
  const device = useDevicePosition()
  const feeders = useKnownFeeders()
  const deviceAt = device.status === 'known' ? device.at : null
  const lists = listJobs(
    data ?? [],
    (feederId, poleId) => positionOfPole(feeders, feederId, poleId),
    deviceAt,
    localToday(),
  )
  return (
    <section className="stack" aria-label="Jobs">
      <DeviceHealth />
      {isPending && <LoadingNote what="Fetching the jobs…" />}
      {error && !data && (
        <ErrorNote title="The jobs did not arrive" error={error} onRetry={() => void refetch()} />
      )}
      {data && lists.toDo.length === 0 && <NoJobs />}
      {lists.toDo.length > 0 && (
        <>
          <p role="status">
            {counted(lists.toDo.length, 'job')} to do, {deviceAt ? 'nearest first' : 'due first'}.
          </p>
          <TakeToday jobs={todaysJobs(data ?? [], localToday())} />
          <Rows label="Jobs to do" jobs={lists.toDo} />
        </>
      )}
      <Fold title="Sent back with a reason" jobs={lists.returned} />
      <Fold title="Done, with the supervisor" jobs={lists.done} />
      {data && data.length > 0 && <NearMe units={units} asks="Nearest first: use my position" />}
      <KeptList />
    </section>
  )
}

function NoJobs() {
  const { name } = useFeeder().feeder.header
  return (
    <EmptyNote
      what={`No job is issued to a crew, on ${name} or on another feeder. It stands here as soon as a supervisor issues one that was drafted from a proposal, from a round for birds, or by hand.`}
    >
      <Button onClick={() => openCrewView({ part: 'pole finder' })}>Find a pole</Button>
    </EmptyNote>
  )
}

interface ListProps {
  readonly jobs: readonly ListedJob[]
}

function Rows({ label, jobs }: ListProps & { readonly label: string }) {
  return (
    <List label={label}>
      {jobs.map((listed) => (
        <JobRow key={listed.job.id} listed={listed} />
      ))}
    </List>
  )
}

function Fold({ title, jobs }: ListProps & { readonly title: string }) {
  if (jobs.length === 0) return null
  return (
    <details className="crew-fold">
      <summary>
        {title}: {counted(jobs.length, 'job')}
      </summary>
      <Rows label={title} jobs={jobs} />
    </details>
  )
}
