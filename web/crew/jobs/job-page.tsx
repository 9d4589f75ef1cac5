import { useEffect } from 'react'
import { isUnanswered } from '../../api/no-answer.ts'
import { useOnDevice } from '../../api/on-device.ts'
import { BankOneLine } from '../../jobs/bank-one-line.tsx'
import { JobStateMark } from '../../jobs/job-state-mark.tsx'
import { capitalised, dueInWords, isLate, KIND_WORDS } from '../../jobs/job-words.ts'
import { BypassedTable } from '../../jobs/plan/bypassed-table.tsx'
import { HazardList } from '../../jobs/plan/hazard-list.tsx'
import { MistakeList } from '../../jobs/plan/mistake-list.tsx'
import { SettingsSheet } from '../../jobs/plan/settings-sheet.tsx'
import '../../jobs/jobs.css'
import '../../birds/birds.css'
import { OpenPaper } from '../../jobs/paper/open-paper.tsx'
import { Attachments } from '../../record/attachments.tsx'
import { showPlace } from '../../state/camera.ts'
import { useFeeder } from '../../state/feeder.tsx'
import { counted } from '../../state/format.ts'
import { select, useSelection } from '../../state/selection.ts'
import { localToday } from '../../state/today.ts'
import { ArrivingTitle } from '../../ui/arriving-title.tsx'
import { Button } from '../../ui/button.tsx'
import { ErrorNote, LoadingNote } from '../../ui/state-note.tsx'
import { CrewFold } from '../crew-fold.tsx'
import { CrewPole } from '../crew-pole.tsx'
import { DeviceHealth } from '../device/device-health.tsx'
import { TakeOfflinePanel } from '../device/take-offline-panel.tsx'
import { openCrewView } from '../open-crew-view.ts'
import { useFieldJob } from '../work/field-job.ts'
import { FieldMoves } from '../work/field-moves.tsx'
import type { FieldJob } from '../work/fold-field-job.ts'
import { JobPapers } from './job-papers.tsx'
import { JobReadings } from './job-readings.tsx'
import { JobRound } from './job-round.tsx'
import { KitChecklist } from './kit-checklist.tsx'
import { isBeforeWork, nextStepOf } from './next-step.ts'
import { NextStepBar } from './next-step-bar.tsx'
import { useRound } from './use-round.ts'

/** A job for whoever is sent out for it. One of another feeder opens that feeder. */
export function JobPage({ jobId }: { readonly jobId: string }) {
  const { field, error, refetch } = useFieldJob(jobId)
  const { feeder } = useFeeder()
  const feederId = field?.job.feederId
  useEffect(() => {
    if (feederId !== undefined) select({ feeder: feederId })
  }, [feederId])
  if (error) return <NotOpened error={error} onRetry={refetch} />
  if (field && feederId === feeder.header.id) return <OpenJob field={field} />
  return (
    <>
      <AllJobs />
      <LoadingNote what={field ? 'Opening the feeder of the job…' : 'Opening the job…'} />
    </>
  )
}

function AllJobs() {
  return <Button onClick={() => openCrewView({ part: 'jobs' })}>All jobs</Button>
}

interface NotOpenedProps {
  readonly error: Error
  readonly onRetry: () => void
}

/** Without an answer only a copy on the device could be opened, and there is none. */
function NotOpened({ error, onRetry }: NotOpenedProps) {
  if (!isUnanswered(error)) {
    return (
      <>
        <AllJobs />
        <ErrorNote title="The job could not be opened" error={error} onRetry={onRetry} />
      </>
    )
  }
  return (
    <section className="stack" aria-label="Job">
      <ArrivingTitle of="not taken offline" className="crew-title">
        This job was not taken offline
      </ArrivingTitle>
      <p>
        It is not on this device, and the server does not answer. Open it again where there is
        signal, and take it offline before you drive out.
      </p>
      <AllJobs />
      <Button onClick={onRetry}>Try again</Button>
    </section>
  )
}

function OpenJob({ field }: { readonly field: FieldJob }) {
  const { job, run, asLeft } = field
  const { pole: chosen } = useSelection()
  const { poleById } = useFeeder()
  const round = useRound(job.id, job.plan)
  const next = nextStepOf({
    state: job.state,
    run,
    order: round.order.map(({ pole }) => pole),
    hasAsLeft: asLeft !== null,
  })
  const nextPole = 'poleId' in next ? next.poleId : null
  const shownPole = nextPole ?? round.order[0]?.pole ?? null
  useEffect(() => {
    const at = shownPole === null ? undefined : poleById.get(shownPole)?.at
    if (at && round.order.length === 1) showPlace(at)
  }, [shownPole, poleById, round.order.length])

  const other = chosen === null ? undefined : poleById.get(chosen)
  if (other && !job.plan.poles.some(({ pole }) => pole === other.id)) {
    return <CrewPole pole={other} back="Back to the job" onBack={() => select({ pole: null })} />
  }
  return (
    <article className="stack" aria-label={`Job ${job.title}`}>
      <JobHead field={field} />
      <DeviceHealth />
      <JobRound field={field} round={round} nextPole={nextPole} />
      <JobParts field={field} order={round.order.map(({ pole }) => pole)} />
      <NextStepBar field={field} next={next} />
    </article>
  )
}

function JobHead({ field: { job, waiting } }: { readonly field: FieldJob }) {
  const today = localToday()
  return (
    <header className="stack">
      <ArrivingTitle of={job.id} className="crew-title">
        {job.title}
      </ArrivingTitle>
      <p className="crew-job-line">
        <JobStateMark state={job.state} />
        <span className={isLate(job, today) ? 'job-late' : undefined}>
          {capitalised(dueInWords(job, today))}
        </span>
      </p>
      <p>
        {KIND_WORDS[job.plan.kind]}.{job.crew !== '' && ` For ${job.crew}.`}
      </p>
      {job.state === 'returned' && job.reason !== '' && (
        <p className="state-note">Sent back: {job.reason}</p>
      )}
      {job.note !== '' && <p className="job-note">{job.note}</p>}
      {waiting > 0 && (
        <p role="status">
          {counted(waiting, 'thing')} of this job {waiting === 1 ? 'waits' : 'wait'} on this device
          to be sent.
        </p>
      )}
    </header>
  )
}

interface PartsProps {
  readonly field: FieldJob
  readonly order: readonly string[]
}

/** Everything else of a job in the order of need, each part folded but what can hurt. */
function JobParts({ field, order }: PartsProps) {
  const { job } = field
  const { plan } = job
  const { bank, hazards, kit, settings, mistakes } = plan
  const isKept = useOnDevice().some(({ jobId }) => jobId === job.id)
  return (
    <>
      <CrewFold title={`What can hurt: ${counted(hazards.length, 'hazard')}`} isOpen>
        <HazardList hazards={hazards} />
      </CrewFold>
      <CrewFold title={`Kit: ${counted(kit.length, 'line')}`}>
        <KitChecklist jobId={job.id} kit={kit} />
      </CrewFold>
      <CrewFold title={isKept ? 'This job is on the device' : 'Take offline'}>
        <TakeOfflinePanel what={{ jobId: job.id }} of="this job" />
      </CrewFold>
      {bank && (
        <CrewFold title="What meters should show">
          <JobReadings
            jobId={job.id}
            plan={plan}
            partId={isBeforeWork(field.run) ? 'found' : 'planned'}
          />
        </CrewFold>
      )}
      {plan.whileBypassed && (
        <CrewFold title="Customers while it is bypassed">
          <BypassedTable plan={plan} />
        </CrewFold>
      )}
      {mistakes.length > 0 && (
        <CrewFold title="What would show a mistake">
          <MistakeList mistakes={mistakes} />
        </CrewFold>
      )}
      {settings.length > 0 && (
        <CrewFold title="Settings">
          <SettingsSheet settings={settings} />
        </CrewFold>
      )}
      {bank && (
        <CrewFold title="One-line drawing of the bank">
          <BankOneLine kind={plan.kind} bank={bank} />
        </CrewFold>
      )}
      <CrewFold title="Papers, files and link">
        <JobPapers job={job} order={order} />
      </CrewFold>
      <OpenPaper job={job} order={order} />
      <Attachments
        holder={{ feederId: job.feederId, attachedTo: 'job', attachedToId: job.id }}
        of={`the job ${job.title}`}
        isReadOnly
      />
      {job.state === 'in the field' && (
        <Button onClick={() => openCrewView({ part: 'as-left', jobId: job.id })}>
          As left: what stands there now
        </Button>
      )}
      <CrewFold title="Start, end, or give back" isOpen={job.state === 'returned'}>
        <FieldMoves field={field} />
      </CrewFold>
    </>
  )
}
