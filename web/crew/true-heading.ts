import type { Position } from '#domain/feeder/geometry.ts'
import { type Declination, declinationAt } from './declination.ts'
import { type DeviceHeading, useDeviceHeading } from './device-heading.ts'
import { useDevicePosition } from './device-position.ts'

/** How the device is turned, with what lies between its north and the true one. */
export type TrueHeading =
  | Exclude<DeviceHeading, { readonly status: 'known' }>
  | {
      readonly status: 'known'
      /** From true north where the declination is known, else from magnetic north. */
      readonly headingDeg: number
      readonly offByDeg: number | null
      /** Null as long as nobody knows where the device is. */
      readonly declination: Declination | null
    }

/**
 * Compasses of devices read magnetic north, also where the browser's event is called absolute
 * (common practice, no source).
 *
 * @param at where the device is; null where that is not known
 */
export function trueHeadingOf(heading: DeviceHeading, at: Position | null, day: Date): TrueHeading {
  if (heading.status !== 'known') return heading
  const declination = at && declinationAt(at, day)
  const headingDeg = (heading.headingDeg + (declination?.deg ?? 0) + 360) % 360
  return { status: 'known', headingDeg, offByDeg: heading.offByDeg, declination }
}

export function useTrueHeading(): TrueHeading {
  const heading = useDeviceHeading()
  const device = useDevicePosition()
  return trueHeadingOf(heading, device.status === 'known' ? device.at : null, new Date())
}
