import type { JobSummary } from '#contract/jobs.ts'
import { useOnDevice } from '../../api/on-device.ts'
import { counted } from '../../state/format.ts'
import { Button } from '../../ui/button.tsx'
import { TakingNote } from './taking-note.tsx'
import { useTakeOffline } from './use-take-offline.ts'

/** All jobs of the day put onto the device at once, before the truck leaves; nothing where there are none. */
export function TakeToday({ jobs }: { readonly jobs: readonly JobSummary[] }) {
  const kept = new Set(useOnDevice().map(({ jobId }) => jobId))
  const { taking, take, cancel } = useTakeOffline(jobs.map(({ id }) => ({ jobId: id })))
  if (jobs.length === 0) return null
  const there = jobs.filter(({ id }) => kept.has(id)).length
  return (
    <div className="stack">
      <p>
        {counted(jobs.length, 'job')} begun, late or due today, {there === 0 ? 'none' : there} on
        this device.
      </p>
      <TakingNote taking={taking} onStop={cancel} />
      {taking.status !== 'taking' && (
        <Button onClick={take}>
          {there === jobs.length
            ? 'Fetch all of today’s jobs anew'
            : 'Take all of today’s jobs offline'}
        </Button>
      )}
    </div>
  )
}
