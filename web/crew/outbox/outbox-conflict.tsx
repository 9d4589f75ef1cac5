import { useJob } from '../../api/jobs.ts'
import { type OutboxItem, setAside } from '../../api/outbox.ts'
import { Button } from '../../ui/button.tsx'
import { AsLeftConflict } from '../as-left/as-left-conflict.tsx'
import { MoveConflict } from '../work/move-conflict.tsx'

/** What can be done about an item that met something newer. */
export function OutboxConflict({ item }: { readonly item: OutboxItem }) {
  if (item.name === 'putAsLeft') return <AsLeftOfJob item={item} />
  if (item.name === 'moveJob') return <MoveConflict item={item} />
  return <Button onClick={() => void setAside(item.id)}>Set it aside</Button>
}

function AsLeftOfJob({ item }: { readonly item: OutboxItem }) {
  const { data } = useJob(item.jobId ?? null)
  if (!data) return <p>The job is needed to show both. Connect, or take the job offline.</p>
  const entries = data.entries.map(({ entry }) => entry)
  return <AsLeftConflict item={item} job={data.job} entries={entries} />
}
