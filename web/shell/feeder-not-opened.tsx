import { isUnanswered } from '../api/no-answer.ts'
import { useOnDevice } from '../api/on-device.ts'
import { Button } from '../ui/button.tsx'
import { ErrorNote } from '../ui/state-note.tsx'
import { OtherFeeders } from './other-feeders.tsx'

interface Props {
  readonly what: 'feeders' | 'feeder'
  readonly error: Error | null
  readonly onRetry: () => void
}

/** Why no feeder is open, the way back, and the feeders that can be opened now. */
export function FeederNotOpened({ what, error, onRetry }: Props) {
  const onDevice = new Set(useOnDevice().map(({ feederId }) => feederId))
  if (what === 'feeders' || !isUnanswered(error)) {
    const title =
      what === 'feeders' ? 'The feeders could not be listed.' : 'The feeder could not be opened.'
    return (
      <>
        <ErrorNote title={title} error={error} onRetry={onRetry} />
        <OtherFeeders />
      </>
    )
  }
  return (
    <>
      <h2>This feeder was not taken offline</h2>
      <p>
        It is not on this device, and the server does not answer. Open it again where there is
        signal.
      </p>
      <div className="row">
        <Button look="main" onClick={() => window.history.back()}>
          Go back
        </Button>
        <Button onClick={onRetry}>Try again</Button>
      </div>
      {onDevice.size > 0 && (
        <>
          <h3>On this device</h3>
          <OtherFeeders among={onDevice} />
        </>
      )}
    </>
  )
}
