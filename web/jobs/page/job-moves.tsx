import { type FormEvent, useState } from 'react'
import type { Job } from '#contract/jobs.ts'
import type { JobMove } from '#domain/jobs/job-state.ts'
import { useJobChanges } from '../../api/jobs.ts'
import { Button } from '../../ui/button.tsx'
import { Field } from '../../ui/field.tsx'
import { ErrorNote } from '../../ui/state-note.tsx'
import { moveInWords } from '../job-words.ts'
import { useMoves } from './use-moves.ts'

interface Props {
  readonly job: Pick<Job, 'id' | 'version' | 'feederId' | 'state'>
  /** What still stands in the way of closing, as sentences. */
  readonly missing: readonly string[]
}

/** The moves that the person may make, each with what it means. */
export function JobMoves({ job, missing }: Props) {
  const { id, version, feederId, state } = job
  const moves = useMoves(state)
  const { move: moving } = useJobChanges(feederId)
  const [asked, setAsked] = useState<JobMove | null>(null)
  if (moves.length === 0) return null
  const go = ({ to }: JobMove, reason?: string) =>
    moving.mutate(
      { id, body: { version, to, ...(reason !== undefined && { reason }) } },
      { onSuccess: () => setAsked(null) },
    )
  const choose = (move: JobMove) =>
    move.needsReason || move.to === 'closed' ? setAsked(move) : go(move)
  const open = asked?.from === state ? asked : null
  return (
    <section className="job-part" aria-label="What can be done with the job">
      <h3>Next</h3>
      {moving.error && <ErrorNote title="The job was not moved." error={moving.error} />}
      {open ? (
        <MoveForm
          key={open.to}
          move={open}
          missing={open.to === 'closed' ? missing : []}
          isMoving={moving.isPending}
          onGo={(reason) => go(open, reason)}
          onGiveUp={() => {
            moving.reset()
            setAsked(null)
          }}
        />
      ) : (
        <ul className="job-moves">
          {moves.map((move, index) => (
            <MoveRow
              key={move.to}
              move={move}
              isMain={index === 0}
              isMoving={moving.isPending}
              onChoose={() => choose(move)}
            />
          ))}
        </ul>
      )}
    </section>
  )
}

interface RowProps {
  readonly move: JobMove
  readonly isMain: boolean
  readonly isMoving: boolean
  readonly onChoose: () => void
}

function MoveRow({ move, isMain, isMoving, onChoose }: RowProps) {
  const { button, means } = moveInWords(move)
  const id = `job-move-${move.to.replaceAll(' ', '-')}`
  return (
    <li>
      <Button
        look={isMain ? 'main' : undefined}
        disabled={isMoving}
        aria-describedby={id}
        onClick={onChoose}
      >
        {button}
        {(move.needsReason || move.to === 'closed') && '…'}
      </Button>
      <span id={id} className="soft">
        {means}
      </span>
    </li>
  )
}

interface FormProps {
  readonly move: JobMove
  readonly missing: readonly string[]
  readonly isMoving: boolean
  readonly onGo: (reason?: string) => void
  readonly onGiveUp: () => void
}

const LEAST_REASON = 3

/** Asks once more before the job is closed, or for the reason. */
function MoveForm({ move, missing, isMoving, onGo, onGiveUp }: FormProps) {
  const { button, means } = moveInWords(move)
  const [reason, setReason] = useState('')
  const [isTried, setIsTried] = useState(false)
  const isShort = move.needsReason && reason.trim().length < LEAST_REASON
  const submit = (event: FormEvent) => {
    event.preventDefault()
    setIsTried(true)
    if (!isShort) onGo(move.needsReason ? reason.trim() : undefined)
  }
  return (
    <form className="stack job-form" aria-label={button} noValidate onSubmit={submit}>
      <p>{means}</p>
      {missing.length > 0 && (
        <ul className="state-note state-note-error" aria-label="What is still missing">
          {missing.map((what) => (
            <li key={what}>{what}</li>
          ))}
        </ul>
      )}
      {move.needsReason && (
        <Field
          label="Reason"
          hint="Everybody who sees the job reads it."
          fault={isTried && isShort ? 'Say why, in a few words.' : null}
        >
          {(control) => (
            <textarea
              {...control}
              className="input"
              rows={3}
              maxLength={2000}
              value={reason}
              onChange={({ target }) => setReason(target.value)}
            />
          )}
        </Field>
      )}
      <div className="row">
        <Button type="submit" look="main" disabled={isMoving}>
          {isMoving ? 'Under way…' : button}
        </Button>
        <Button onClick={onGiveUp}>Not now</Button>
      </div>
    </form>
  )
}
