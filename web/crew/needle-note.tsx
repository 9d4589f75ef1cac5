import { Button } from '../ui/button.tsx'
import { followHeading, stopHeading, useDeviceHeading } from './device-heading.ts'

/** Which way is up for the arrows, how sure that is, and the step that changes it. */
export function NeedleNote() {
  const heading = useDeviceHeading()
  if (heading.status === 'known') {
    return (
      <div className="stack">
        <p role="status">
          Arrows turn with the compass of the device:{' '}
          {heading.offByDeg === null
            ? 'it does not say how far it may be off.'
            : `it may be off by ${Math.round(heading.offByDeg)}°.`}{' '}
          Steel, trucks and current nearby turn it, and its north may be the magnetic one. Turn on
          the spot once to check.
        </p>
        <Button onClick={stopHeading}>Back to north up</Button>
      </div>
    )
  }
  return (
    <div className="stack">
      <p role="status">
        {heading.status === 'failed' ? heading.problem : 'Arrows: north is up, as on the map.'}
      </p>
      <Button onClick={() => void followHeading()} disabled={heading.status === 'asking'}>
        {heading.status === 'asking' ? 'Waiting for the compass…' : 'Turn the arrows with me'}
      </Button>
    </div>
  )
}
