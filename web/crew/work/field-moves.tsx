import { type FormEvent, useState } from 'react'
import { missingForEnd } from '#domain/jobs/job-run.ts'
import type { JobState } from '#domain/jobs/job-state.ts'
import { useMay } from '../../api/account.ts'
import { counted } from '../../state/format.ts'
import { Button } from '../../ui/button.tsx'
import { Field } from '../../ui/field.tsx'
import { enterMove } from './field-job.ts'
import type { FieldJob } from './fold-field-job.ts'
import { InTheWay } from './in-the-way.tsx'
import { whyNotKept } from './why-not-kept.ts'

interface Props {
  readonly field: FieldJob
}

/** Starting the job, saying that it is done, or giving it back; also without connection. */
export function FieldMoves({ field }: Props) {
  const { job } = field
  const mayMove = useMay('move a job')
  if (!mayMove) return <p>Starting and ending a job is the crew's and the supervisor's.</p>
  switch (job.state) {
    case 'issued':
      return (
        <div className="stack">
          <MoveButton field={field} to="in the field" words="Start the work" what="Work started" />
          <GiveBack field={field} />
        </div>
      )
    case 'in the field':
      return (
        <div className="stack">
          <EndWork field={field} />
          <GiveBack field={field} />
        </div>
      )
    case 'returned':
      return (
        <ReasonedMove
          field={field}
          to="in the field"
          title="Go on with the work"
          label="Why can it go on?"
          what="Work goes on"
        />
      )
    default:
      return <p>{STATE_SAYS[job.state]}</p>
  }
}

const STATE_SAYS: Readonly<
  Record<Exclude<JobState, 'issued' | 'in the field' | 'returned'>, string>
> = {
  drafted: 'This job is a draft. The supervisor approves and issues it first.',
  approved: 'This job is approved but not issued yet. The supervisor issues it.',
  'work done': 'The crew has said that the work is done. The supervisor looks at it and closes it.',
  closed: 'This job is closed.',
}

interface MoveProps extends Props {
  readonly to: JobState
  /** As the outbox lists it. */
  readonly what: string
}

function MoveButton({ field, to, what, words }: MoveProps & { readonly words: string }) {
  const [isEntering, setIsEntering] = useState(false)
  const [problem, setProblem] = useState<readonly string[]>([])
  const enter = async () => {
    setIsEntering(true)
    const move = { to, version: field.moveVersion }
    const entered = enterMove(field.job.id, move, `${what}: ${field.job.title}`)
    setProblem(await whyNotKept(entered))
    setIsEntering(false)
  }
  return (
    <>
      <InTheWay sentences={problem} />
      <Button look="main" className="work-main" disabled={isEntering} onClick={() => void enter()}>
        {words}
      </Button>
    </>
  )
}

/** Offered once nothing is missing; until then it says what is. */
function EndWork({ field }: Props) {
  const missing = [
    ...shortList(missingForEnd(field.run)),
    ...(field.asLeft ? [] : ['What stands at the poles now is not said yet: fill in “As left”.']),
  ]
  if (missing.length === 0) {
    return (
      <MoveButton
        field={field}
        to="work done"
        words="The work is done"
        what="Work said to be done"
      />
    )
  }
  return (
    <div className="in-the-way">
      <strong>Before the work can be said to be done:</strong>
      <ul>
        {missing.map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ul>
    </div>
  )
}

const MOST_NAMED = 4

/** Dozens of open steps are counted rather than read out. */
function shortList(sentences: readonly string[]): string[] {
  if (sentences.length <= MOST_NAMED) return [...sentences]
  const more = sentences.length - MOST_NAMED
  return [...sentences.slice(0, MOST_NAMED), `And ${counted(more, 'more point')}.`]
}

function GiveBack({ field }: Props) {
  return (
    <details className="work-fold">
      <summary>The work cannot be done: give the job back</summary>
      <GiveBackForm field={field} />
    </details>
  )
}

/** @param reason what the person begins with; they may change it */
export function GiveBackForm({ field, reason }: Props & { readonly reason?: string }) {
  return (
    <ReasonedMove
      field={field}
      to="returned"
      title="Give the job back"
      label="Why does it go back?"
      what="Job given back"
      begunWith={reason}
    />
  )
}

interface ReasonedProps extends MoveProps {
  readonly title: string
  readonly label: string
  readonly begunWith?: string
}

function ReasonedMove({ field, to, title, label, what, begunWith = '' }: ReasonedProps) {
  const [reason, setReason] = useState(begunWith)
  const [inTheWay, setInTheWay] = useState<readonly string[]>([])
  const enter = async (event: FormEvent) => {
    event.preventDefault()
    if (reason.trim() === '') {
      setInTheWay(['Write the reason; the supervisor reads it.'])
      return
    }
    setInTheWay([])
    const move = { to, version: field.moveVersion, reason: reason.trim() }
    const entered = enterMove(field.job.id, move, `${what}: ${field.job.title}`)
    setInTheWay(await whyNotKept(entered))
  }
  return (
    <form className="stack" aria-label={title} onSubmit={(event) => void enter(event)}>
      <Field label={label}>
        {(control) => (
          <textarea
            {...control}
            className="input work-input"
            rows={3}
            maxLength={2000}
            value={reason}
            onChange={({ target }) => setReason(target.value)}
          />
        )}
      </Field>
      <InTheWay sentences={inTheWay} />
      <Button type="submit">{title}</Button>
    </form>
  )
}
