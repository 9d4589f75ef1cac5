import { Job, MoveJobBody } from '#contract/jobs.ts'
import { moveOf } from '#domain/jobs/job-state.ts'
import { answerConflict, type OutboxItem, setAside, useOutbox } from '../../api/outbox.ts'
import { Button } from '../../ui/button.tsx'
import { bodyOfInput } from './body-of-input.ts'

/** Moves of a job that met something newer, each with what can be done. */
export function MoveConflicts({ jobId }: { readonly jobId: string }) {
  const outbox = useOutbox({ jobId })
  const conflicts = outbox.filter(({ name, state }) => name === 'moveJob' && state === 'conflict')
  return conflicts.map((item) => (
    <section key={item.id} className="refused stack" aria-label="Not taken yet">
      <h3>{item.what}: not taken by the server yet</h3>
      <MoveConflict item={item} />
    </section>
  ))
}

/**
 * A move of a job that was changed at a desk meanwhile. Sent all the same, it takes along what was
 * refused only because the job had not moved.
 */
export function MoveConflict({ item }: { readonly item: OutboxItem }) {
  const { jobId } = item
  const behind = useOutbox(jobId === undefined ? undefined : { jobId }).filter(
    ({ name, state, setAsideAt }) =>
      name !== 'moveJob' && state === 'refused' && setAsideAt === undefined,
  )
  const current = Job.safeParse(item.current).data
  const move = MoveJobBody.safeParse(bodyOfInput(item.input)).data
  const isPossible = current && move && moveOf(current.state, move.to)
  const sendAgain = async () => {
    if (!current || !move) return
    const body = { ...move, version: current.version }
    await answerConflict(item.id, { params: { jobId: current.id }, body })
    for (const { id, input } of behind) await answerConflict(id, input)
  }
  return (
    <>
      {current && (
        <p>
          The job was changed at a desk meanwhile: it is called “{current.title}” and is{' '}
          {current.state} now
          {current.note && `, with the note “${current.note}”`}.
        </p>
      )}
      <div className="work-pair">
        {isPossible && <Button onClick={() => void sendAgain()}>Send it all the same</Button>}
        <Button onClick={() => void setAside(item.id)}>Set it aside</Button>
      </div>
    </>
  )
}
