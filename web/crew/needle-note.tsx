import { Button } from '../ui/button.tsx'
import { type Declination, declinationText, MODEL_NAME, MODEL_TO } from './declination.ts'
import { followHeading, stopHeading } from './device-heading.ts'
import { useTrueHeading } from './true-heading.ts'

/** Which way is up for the arrows, how sure that is, and the step that changes it. */
export function NeedleNote() {
  const heading = useTrueHeading()
  if (heading.status === 'known') {
    return (
      <div className="stack">
        <p role="status">
          Arrows turn with the compass of the device:{' '}
          {heading.offByDeg === null
            ? 'it does not say how far it may be off.'
            : `it may be off by ${Math.round(heading.offByDeg)}°.`}{' '}
          {northInWords(heading.declination)} Steel, trucks and current nearby turn it. Turn on the
          spot once to check.
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

const YEARS_END = MODEL_TO.toLocaleDateString('en-US', { month: 'long', year: 'numeric' })

function northInWords(declination: Declination | null): string {
  if (!declination) {
    return 'Its north is the magnetic one; how far that lies beside true north is known once the device knows where it is.'
  }
  const applied = `Set to true north: magnetic declination ${declinationText(declination)}, ${MODEL_NAME}`
  return declination.isOutsideYears
    ? `${applied}, which ends in ${YEARS_END}: the clock of the device is wrong, or the value is out of date. Have the program brought up to date.`
    : `${applied}.`
}
