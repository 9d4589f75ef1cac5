import { Job, MoveJobBody } from '#contract/jobs.ts'
import { moveOf } from '#domain/jobs/job-state.ts'
import { useJob } from '../../api/jobs.ts'
import { answerConflict, type OutboxItem, setAside } from '../../api/outbox.ts'
import { Button } from '../../ui/button.tsx'
import { AsLeftConflict } from '../as-left/as-left-conflict.tsx'
import { bodyOfInput } from '../work/body-of-input.ts'

/** What can be done about an item that met something newer. */
export function OutboxConflict({ item }: { readonly item: OutboxItem }) {
  if (item.name === 'putAsLeft') return <AsLeftOfJob item={item} />
  if (item.name === 'moveJob') return <MoveConflict item={item} />
  return <Button onClick={() => void setAside(item.id)}>Set it aside</Button>
}

function AsLeftOfJob({ item }: { readonly item: OutboxItem }) {
  const { data } = useJob(item.jobId ?? null)
  if (!data) return <p>The job is needed to show both. Connect, or take the job offline.</p>
  return <AsLeftConflict item={item} job={data.job} />
}

function MoveConflict({ item }: { readonly item: OutboxItem }) {
  const current = Job.safeParse(item.current).data
  const move = MoveJobBody.safeParse(bodyOfInput(item.input)).data
  const isPossible = current && move && moveOf(current.state, move.to)
  const sendAgain = async () => {
    if (!current || !move) return
    const body = { ...move, version: current.version }
    await answerConflict(item.id, { params: { jobId: current.id }, body })
  }
  return (
    <>
      {current && (
        <p>
          The job was changed at a desk meanwhile; it is “{current.title}” and {current.state} now
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
