import { useState } from 'react'
import { type StepPlace, stepsAt } from '#domain/jobs/job-run.ts'
import type { Asked, JudgeName } from '#domain/jobs/step-sequence.ts'
import { useMay } from '../../api/account.ts'
import { BypassedTable } from '../../jobs/plan/bypassed-table.tsx'
import '../../jobs/jobs.css'
import { counted } from '../../state/format.ts'
import { useFullSheet } from '../../state/sheet-height.ts'
import { ArrivingTitle } from '../../ui/arriving-title.tsx'
import { Button } from '../../ui/button.tsx'
import { EmptyNote, ErrorNote, LoadingNote } from '../../ui/state-note.tsx'
import { JobReadings } from '../jobs/job-readings.tsx'
import { nextStepOf } from '../jobs/next-step.ts'
import { NextStepBar } from '../jobs/next-step-bar.tsx'
import { useRound } from '../jobs/use-round.ts'
import { DoneStep } from './done-step.tsx'
import { useFieldJob } from './field-job.ts'
import { FieldMoves, GiveBackForm } from './field-moves.tsx'
import type { FieldJob } from './fold-field-job.ts'
import { keyOfPlace } from './key-of-place.ts'
import { MoveConflicts } from './move-conflict.tsx'
import { JobPhotos } from './photos/job-photos.tsx'
import { RefusedEntries } from './refused-entries.tsx'
import { RemarkForm } from './remark-form.tsx'
import { SaidEntries } from './said-entries.tsx'
import { StepCard } from './step-card.tsx'
import { StepForm } from './step-form.tsx'
import { StepList } from './step-list.tsx'
import { StepLists } from './step-lists.tsx'
import { shortened } from './step-words.ts'
import { UnitChoice } from './unit-choice.tsx'
import { UnitSwitches } from './unit-switches.tsx'
import { ScreenKeptOn, WorkChoices } from './work-choices-part.tsx'
import './work.css'

interface Props {
  readonly jobId: string
  readonly poleId: string
}

/** The steps at one pole of a job, one at a time. */
export function StepRunner({ jobId, poleId }: Props) {
  const { field, error, refetch } = useFieldJob(jobId)
  const mayWork = useMay('work a job in the field')
  useFullSheet()
  if (error) return <ErrorNote title="The job did not come" error={error} onRetry={refetch} />
  if (!field) return <LoadingNote what="Opening the job…" />
  if (!field.job.plan.poles.some(({ pole }) => pole === poleId)) {
    return <EmptyNote what={`This job has no work at pole ${poleId}. Choose one of its poles.`} />
  }
  return (
    <article className="work stack" aria-label={`Steps at pole ${poleId}`}>
      <MoveConflicts jobId={jobId} />
      <RefusedEntries jobId={jobId} plan={field.job.plan} refused={field.refused} />
      {!mayWork && <p>Whoever is signed in may look at the steps, but not work on them.</p>}
      {field.job.state === 'in the field' && mayWork ? (
        <OpenSteps field={field} poleId={poleId} />
      ) : (
        <ClosedSteps field={field} poleId={poleId} />
      )}
    </article>
  )
}

interface OpenProps {
  readonly field: FieldJob
  readonly poleId: string
}

function OpenSteps({ field, poleId }: OpenProps) {
  const { job, run, entries, waiting } = field
  const places = stepsAt(run, poleId)
  const nextIndex = places.findIndex(({ status }) => status === 'next')
  const [looked, setLooked] = useState<number | null>(null)
  const shown = looked ?? nextIndex
  const place = places[shown]
  const isNext = place?.status === 'next'
  const look = (index: number) => setLooked(index === nextIndex ? null : index)
  return (
    <>
      {looked !== null && !isNext && (
        <Button look="main" className="work-main" onClick={() => setLooked(null)}>
          Back to the present step
        </Button>
      )}
      {place && (
        <StepCard place={place} index={shown} all={places.length}>
          <UnitChoice places={places} shown={shown} onShow={look} />
          <UnitSwitches run={run} poleId={poleId} phase={place.phase} />
          <WhileBypassed field={field} place={place} />
          <StepReadings field={field} place={place} />
          <StepLists plan={job.plan} poleId={poleId} step={place.step} />
          {isNext && (
            <WorkAtStep
              key={keyOfPlace(place)}
              field={field}
              poleId={poleId}
              place={place}
              onEntered={() => setLooked(null)}
            />
          )}
          {place.status === 'waiting' && <p>This step comes later; the steps go in their order.</p>}
          <DoneStep place={place} entries={entries} />
        </StepCard>
      )}
      {!place && <AllDone field={field} poleId={poleId} places={places} />}
      {waiting > 0 && (
        <p role="status" className="work-waiting">
          ○ {counted(waiting, 'thing')} of this job {waiting === 1 ? 'waits' : 'wait'} on this
          device to be sent.
        </p>
      )}
      <ScreenKeptOn />
      <Folds field={field} poleId={poleId} places={places} shown={shown} onShow={look} />
    </>
  )
}

interface WorkProps extends OpenProps {
  readonly place: StepPlace
  readonly onEntered: () => void
}

/** The form of the present step, or that of giving the job back where it cannot be done. */
function WorkAtStep({ field, poleId, place, onEntered }: WorkProps) {
  const mayMove = useMay('move a job')
  const [stopped, setStopped] = useState<Asked | null>(null)
  if (stopped) {
    const at = `At pole ${poleId}${place.phase ? `, ${place.phase} phase` : ''}`
    return (
      <div className="stack">
        <Button onClick={() => setStopped(null)}>Back to the step</Button>
        <p>
          Leave the pole as your rules ask, then write how it stands. What was entered of this step
          is kept.
        </p>
        <GiveBackForm
          field={field}
          reason={`${at}: ${shortened(place.step.text)} ${stopped.what}: no.`}
        />
      </div>
    )
  }
  return (
    <StepForm
      jobId={field.job.id}
      poleId={poleId}
      run={field.run}
      place={place}
      onEntered={onEntered}
      onGiveBack={mayMove ? setStopped : undefined}
    />
  )
}

interface AtStepProps {
  readonly field: FieldJob
  readonly place: StepPlace
}

/** Said before it happens: a bypass is closed at a time when customers bear it. */
function WhileBypassed({ field: { job }, place: { step, status } }: AtStepProps) {
  if (step.action !== 'close the bypass' || status === 'done' || !job.plan.whileBypassed)
    return null
  return (
    <details className="work-fold" open>
      <summary>Customers while it is bypassed</summary>
      <BypassedTable plan={job.plan} />
    </details>
  )
}

const HELD_AGAINST_FIGURES: readonly (JudgeName | undefined)[] = [
  'source volts as expected',
  'load volts as expected',
  'current as expected',
]

/** The figures that the readings of the step are held against. */
function StepReadings({ field: { job }, place: { step } }: AtStepProps) {
  if (!job.plan.bank || !step.asks.some(({ judge }) => HELD_AGAINST_FIGURES.includes(judge))) {
    return null
  }
  const partId = step.readsAsFound ? 'found' : 'planned'
  return (
    <details className="work-fold">
      <summary>What meters should show</summary>
      <JobReadings key={partId} jobId={job.id} plan={job.plan} partId={partId} />
    </details>
  )
}

interface AllDoneProps extends OpenProps {
  readonly places: readonly StepPlace[]
}

/** The end of the steps at a pole: what was left out of them, and what comes next. */
function AllDone({ field, poleId, places }: AllDoneProps) {
  const { job, run, asLeft } = field
  const { order } = useRound(job.id, job.plan)
  const next = nextStepOf({
    state: job.state,
    run,
    order: order.map(({ pole }) => pole),
    hasAsLeft: asLeft !== null,
  })
  const leadsOn = next.kind === 'steps' || next.kind === 'as-left'
  return (
    <section className="step stack" aria-label="Steps gone through">
      <ArrivingTitle of="all-done" className="step-place">
        All {counted(places.length, 'step')} at pole {poleId} are gone through
      </ArrivingTitle>
      <LeftOut places={places.filter(({ status }) => status === 'left out')} />
      {leadsOn ? (
        <>
          <NextStepBar field={field} next={next} />
          <details className="work-fold">
            <summary>End or give back the job</summary>
            <FieldMoves field={field} />
          </details>
        </>
      ) : (
        <FieldMoves field={field} />
      )}
    </section>
  )
}

/** Nobody takes a step that was left out for one that was done. */
function LeftOut({ places }: { readonly places: readonly StepPlace[] }) {
  if (places.length === 0) return null
  return (
    <div className="stack">
      <p>
        <strong>Left out: {counted(places.length, 'step')}.</strong>
      </p>
      <ul className="step-left-out">
        {places.map((place) => (
          <li key={keyOfPlace(place)}>
            {place.phase && `${place.phase} phase: `}
            {shortened(place.step.text)}
            {place.entry?.kind === 'step left out' && ` Why: ${place.entry.why}`}
          </li>
        ))}
      </ul>
    </div>
  )
}

interface FoldsProps extends OpenProps {
  readonly places: readonly StepPlace[]
  readonly shown: number
  readonly onShow: (index: number) => void
}

function Folds({ field, poleId, places, shown, onShow }: FoldsProps) {
  return (
    <>
      <details className="work-fold">
        <summary>Photos</summary>
        <JobPhotos field={field} poleId={poleId} />
      </details>
      <details className="work-fold">
        <summary>Say what was different</summary>
        <div className="stack">
          <SaidEntries poleId={poleId} entries={field.entries} />
          <RemarkForm jobId={field.job.id} poleId={poleId} />
        </div>
      </details>
      <details className="work-fold">
        <summary>All {counted(places.length, 'step')}</summary>
        <StepList places={places} shown={shown} onShow={onShow} />
      </details>
      <details className="work-fold">
        <summary>Screen, sound and vibration</summary>
        <WorkChoices />
      </details>
      {places.some(({ status }) => status === 'next') && (
        <details className="work-fold">
          <summary>End or give back the job</summary>
          <FieldMoves field={field} />
        </details>
      )}
    </>
  )
}

/** A job that is not in the field: what was done of it, and the move that comes next. */
function ClosedSteps({ field, poleId }: OpenProps) {
  const places = stepsAt(field.run, poleId)
  const [shown, setShown] = useState<number | null>(null)
  const place = shown === null ? undefined : places[shown]
  return (
    <>
      <FieldMoves field={field} />
      {place && shown !== null && (
        <StepCard place={place} index={shown} all={places.length}>
          <DoneStep place={place} entries={field.entries} />
        </StepCard>
      )}
      <StepList places={places} shown={shown ?? -1} onShow={setShown} />
      <SaidEntries poleId={poleId} entries={field.entries} />
    </>
  )
}
