import { Button } from '../../ui/button.tsx'
import { ErrorNote } from '../../ui/state-note.tsx'
import type { Taking } from './use-take-offline.ts'

interface Props {
  readonly taking: Taking
  readonly onStop: () => void
}

/** How far the taking is, with a way to stop it, or why it ended early. */
export function TakingNote({ taking, onStop }: Props) {
  if (taking.status === 'idle') return null
  if (taking.status === 'failed') {
    return <ErrorNote title="Not all of it came onto the device" error={taking.problem} />
  }
  const { words, done, all } = taking
  return (
    <div className="state-note" role="status">
      <span>
        {words}
        {all > 0 && `: ${done} of ${all}`}…
      </span>
      <progress
        className="crew-progress"
        aria-label="Taking offline"
        value={done}
        max={Math.max(1, all)}
      />
      <Button onClick={onStop}>Stop</Button>
    </div>
  )
}
