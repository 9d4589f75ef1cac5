import { bearingText, type WayTo } from '../jobs/places/bearing.ts'
import { distanceText } from '../jobs/places/distance-text.ts'
import type { Units } from '../state/address.ts'
import { turnWords } from './heading.ts'
import { useTrueHeading } from './true-heading.ts'

interface Props {
  readonly way: WayTo
  readonly units: Units
  /** Also says which way to turn, where the device knows how it is turned. */
  readonly hasTurn?: boolean
}

/** Arrow and words toward a pole; up is where the device points, or true north as on the map. */
export function WayNeedle({ way, units, hasTurn = false }: Props) {
  const heading = useTrueHeading()
  const upDeg = heading.status === 'known' ? heading.headingDeg : 0
  return (
    <span className="way">
      <svg viewBox="0 0 24 24" width="36" height="36" aria-hidden="true">
        <circle className="way-ring" cx="12" cy="12" r="10.5" />
        <path
          className="way-arrow"
          d="M12 3.5 17 19 12 15.5 7 19Z"
          transform={`rotate(${(way.bearingDeg - upDeg).toFixed(1)} 12 12)`}
        />
      </svg>
      <span>
        {distanceText(way.distanceM, units)}, {bearingText(way.bearingDeg)}
        {hasTurn && heading.status === 'known' && (
          <strong className="way-turn">{turnWords(way.bearingDeg, heading.headingDeg)}</strong>
        )}
      </span>
    </span>
  )
}
