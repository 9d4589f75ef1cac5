import { useState } from 'react'
import type { Job, JobAnswer } from '#contract/jobs.ts'
import { ProblemError } from '#contract/read-answer.ts'
import { missingForEnd, runOf, stepsCount } from '#domain/jobs/job-run.ts'
import { useMay } from '../../api/account.ts'
import { useJob, useJobChanges } from '../../api/jobs.ts'
import '../../birds/birds.css'
import { Attachments } from '../../record/attachments.tsx'
import { HistoryButton } from '../../record/history-button.tsx'
import { Moment } from '../../record/moment.tsx'
import { useFeeder } from '../../state/feeder.tsx'
import { ArrivingTitle } from '../../ui/arriving-title.tsx'
import { Button } from '../../ui/button.tsx'
import { EmptyNote, ErrorNote, LoadingNote } from '../../ui/state-note.tsx'
import { headDrafts } from '../job-head-draft.ts'
import { JobHeadForm } from '../job-head-form.tsx'
import { JobPlanView } from '../job-plan-view.tsx'
import { JobStateMark } from '../job-state-mark.tsx'
import { KIND_WORDS, originInWords, stepsInWords, WAITS_FOR } from '../job-words.ts'
import '../jobs.css'
import { OpenPaper, PaperButtons } from '../paper/open-paper.tsx'
import { AsLeftView } from './as-left-view.tsx'
import { DueWords } from './due-words.tsx'
import { FieldWork } from './field-work.tsx'
import { JobGone } from './job-gone.tsx'
import { JobMoves } from './job-moves.tsx'

interface Props {
  readonly jobId: string
  /** On the way back: "Back to the jobs". */
  readonly backWords: string
  readonly onBack: () => void
}

/** One job: its state and the next step, what was done and left, and its plan. */
export function JobPage({ jobId, backWords, onBack }: Props) {
  const { data, error, isPending, refetch } = useJob(jobId)
  const { remove } = useJobChanges(useFeeder().feeder.header.id)
  const deleted = remove.data ?? null
  const isGone = deleted !== null || isNotFound(error)
  return (
    <section className="stack job-page" aria-label="Job">
      <div>
        <Button onClick={onBack}>{backWords}</Button>
      </div>
      {isPending && <LoadingNote what="Opening the job…" />}
      {isGone && <JobGone jobId={jobId} deleted={deleted} onRestored={() => remove.reset()} />}
      {error && !isGone && (
        <ErrorNote
          title="The job could not be opened."
          error={error}
          onRetry={() => void refetch()}
        />
      )}
      {data && !isGone && <Opened answer={data} remove={remove} />}
    </section>
  )
}

function isNotFound(error: Error | null): boolean {
  return error instanceof ProblemError && error.problem.code === 'not-found'
}

interface OpenedProps {
  readonly answer: JobAnswer
  readonly remove: ReturnType<typeof useJobChanges>['remove']
}

function Opened({ answer, remove }: OpenedProps) {
  const { job, entries, asLeft } = answer
  const entered = entries.map(({ entry }) => entry)
  const { run } = runOf(job.plan, entered)
  const missing = missingForEnd(run)
  const hasBegun = entries.length > 0 || asLeft !== null
  return (
    <>
      <JobHead job={job} />
      {hasBegun && <p>{stepsInWords(stepsCount(run))}.</p>}
      <JobMoves job={job} missing={missing} />
      {hasBegun && <FieldWork job={job} entries={entries} missing={missing} />}
      {asLeft && <AsLeftView plan={job.plan} record={asLeft} entries={entered} />}
      {(job.closingNotes ?? []).length > 0 && (
        <ul
          className="state-note"
          aria-label="What the record did not take over, and what to look at"
        >
          {job.closingNotes?.map((note) => (
            <li key={note}>{note}</li>
          ))}
        </ul>
      )}
      {!asLeft && job.state === 'work done' && (
        <EmptyNote what="Nothing was written down of what stands at the poles now. Return the job, so that the crew does." />
      )}
      {hasBegun && <Photos job={job} />}
      <div className="row">
        <PaperButtons />
      </div>
      <OpenPaper job={job} order={job.plan.poles.map(({ pole }) => pole)} />
      <Plan job={job} isFolded={hasBegun} />
      {!hasBegun && <Photos job={job} />}
      <JobFoot job={job} remove={remove} />
      <p className="small soft">
        A record and an aid, not an authority: setting, bypassing and covering is energized work.
        The utility’s own safety rules and qualified workers govern, with local codes, permits and
        the wildlife agencies.
      </p>
    </>
  )
}

function JobHead({ job }: { readonly job: Job }) {
  const [isEditing, setIsEditing] = useState(false)
  const isBegun = headDrafts.use(job.id) !== null
  const mayChange = useMay('draft or change a job') && job.state !== 'closed'
  const { title, plan, origin, crew, note, state, stateSince, reason } = job
  return (
    <>
      <ArrivingTitle of={job.id}>{title}</ArrivingTitle>
      <p className="row">
        <JobStateMark state={state} />
        <span className="soft">
          since <Moment at={stateSince} />
        </span>
      </p>
      <p>{WAITS_FOR[state]}</p>
      {reason && state !== 'closed' && (
        <p className="state-note job-reason">
          <strong>{state === 'returned' ? 'Returned, because:' : 'Reason given:'}</strong> {reason}
        </p>
      )}
      <p>
        {KIND_WORDS[plan.kind]}, {originInWords(origin)}; <DueWords job={job} />
        {crew === '' ? '; no crew is named.' : `; ${crew}.`}
      </p>
      {note && <p>{note}</p>}
      {isEditing && mayChange ? (
        <JobHeadForm job={job} onDone={() => setIsEditing(false)} />
      ) : (
        mayChange && (
          <div>
            <Button onClick={() => setIsEditing(true)}>
              {isBegun ? 'Go on editing title and due date' : 'Edit title, due date, crew and note'}
            </Button>
          </div>
        )
      )}
    </>
  )
}

function Photos({ job: { id, feederId, title } }: { readonly job: Job }) {
  return (
    <Attachments
      holder={{ feederId, attachedTo: 'job', attachedToId: id }}
      of={`the job ${title}`}
    />
  )
}

/** The plan comes first until there is work to be read. */
function Plan({ job, isFolded }: { readonly job: Job; readonly isFolded: boolean }) {
  const madeOn = (
    <p className="soft small">
      Made on version {job.feederVersion} of the feeder; it stands as it was then.
      {job.feederVersionAfter !== null &&
        ` Closing the job wrote version ${job.feederVersionAfter}.`}
    </p>
  )
  if (!isFolded) {
    return (
      <>
        {madeOn}
        <JobPlanView plan={job.plan} />
      </>
    )
  }
  return (
    <details className="record-fold">
      <summary>The plan that the crew was handed</summary>
      {madeOn}
      <JobPlanView plan={job.plan} />
    </details>
  )
}

function JobFoot({ job, remove }: { readonly job: Job } & Pick<OpenedProps, 'remove'>) {
  const { id, feederId, title, state } = job
  const mayDelete = useMay('delete or restore a job') && state !== 'closed'
  return (
    <>
      {remove.error && <ErrorNote title="Not deleted." error={remove.error} />}
      <HistoryButton
        thing={{ subject: 'job', subjectId: id, feederId }}
        name={`the job ${title}`}
        beside={
          mayDelete && (
            <Button disabled={remove.isPending} onClick={() => remove.mutate(job)}>
              Delete the job
            </Button>
          )
        }
      />
    </>
  )
}
