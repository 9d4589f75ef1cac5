import { distanceText } from '../jobs/places/distance-text.ts'
import type { Units } from '../state/address.ts'
import { Button } from '../ui/button.tsx'
import { followDevice, stopFollowing, useDevicePosition } from './device-position.ts'

interface Props {
  readonly units: Units
  /** What the position is for, as the button says it. */
  readonly asks?: string
}

/** Turns the device's position on and off, and says in plain words how that went. */
export function NearMe({ units, asks = 'Near me: use my position' }: Props) {
  const device = useDevicePosition()
  if (device.status === 'known') {
    return (
      <div className="row">
        <span role="status">
          Your position is known to about {distanceText(device.accuracyM, units)}.
        </span>
        <Button onClick={stopFollowing}>Stop using it</Button>
      </div>
    )
  }
  return (
    <div className="stack">
      <Button onClick={followDevice} disabled={device.status === 'asking'}>
        {device.status === 'asking' ? 'Asking the device…' : asks}
      </Button>
      {device.status === 'failed' && (
        <p className="state-note" role="status">
          {device.problem}
        </p>
      )}
    </div>
  )
}
