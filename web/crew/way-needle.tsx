import { bearingText, type WayTo } from '../jobs/places/bearing.ts'
import { distanceText } from '../jobs/places/distance-text.ts'
import type { Units } from '../state/address.ts'

interface Props {
  readonly way: WayTo
  readonly units: Units
}

/** Arrow and words toward a pole; up is true north, as on the map. */
export function WayNeedle({ way, units }: Props) {
  return (
    <span className="way">
      <svg viewBox="0 0 24 24" width="36" height="36" aria-hidden="true">
        <circle className="way-ring" cx="12" cy="12" r="10.5" />
        <path
          className="way-arrow"
          d="M12 3.5 17 19 12 15.5 7 19Z"
          transform={`rotate(${way.bearingDeg.toFixed(1)} 12 12)`}
        />
      </svg>
      <span>
        {distanceText(way.distanceM, units)}, {bearingText(way.bearingDeg)}
      </span>
    </span>
  )
}
