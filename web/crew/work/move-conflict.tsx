import { Job, MoveJobBody } from '#contract/jobs.ts'
import { moveOf } from '#domain/jobs/job-state.ts'
import { answerConflict, type OutboxItem, setAside, useOutbox } from '../../api/outbox.ts'
import { counted } from '../../state/format.ts'
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

/** A move of a job that was changed at a desk meanwhile; what was entered after it waits for the answer. */
export function MoveConflict({ item }: { readonly item: OutboxItem }) {
  const behind = useOutbox({ jobId: item.jobId ?? '' }).filter(({ state }) => state === 'waiting')
  const current = Job.safeParse(item.current).data
  const move = MoveJobBody.safeParse(bodyOfInput(item.input)).data
  const isPossible = current && move && moveOf(current.state, move.to)
  const sendAgain = () => {
    if (!current || !move) return
    const body = { ...move, version: current.version }
    void answerConflict(item.id, { params: { jobId: current.id }, body })
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
      {behind.length > 0 && (
        <p>
          {counted(behind.length, 'thing')} entered after it{' '}
          {behind.length === 1 ? 'waits' : 'wait'} on this device until you choose, and{' '}
          {behind.length === 1 ? 'is' : 'are'} then sent in their order.
        </p>
      )}
      <div className="work-pair">
        {isPossible && <Button onClick={sendAgain}>Send it all the same</Button>}
        <Button onClick={() => void setAside(item.id)}>Set it aside</Button>
      </div>
    </>
  )
}
