import geomagnetism from 'geomagnetism'
import type { Position } from '#domain/feeder/geometry.ts'

/** How far magnetic north lies beside true north at a place, and how sure that is. */
export interface Declination {
  /** Degrees, positive where magnetic north is east of true north. */
  readonly deg: number
  /** The day is outside the years of the model; the value is that of its nearest day. */
  readonly isOutsideYears: boolean
}

/** World Magnetic Model (NOAA/NCEI and British Geological Survey), its coefficients as the package has them. */
export const MODEL_NAME = 'WMM2025'

/** Days for which the package has the model; the model itself is published for 2025.0 to 2030.0. */
export const MODEL_FROM = new Date('2024-11-14T00:00:00Z')
export const MODEL_TO = new Date('2029-11-13T00:00:00Z')

/**
 * Magnetic declination at sea level. 100 km of height change it by half a degree (published test
 * values), so a mountain by hundredths.
 *
 * @param at longitude and latitude, degrees
 */
export function declinationAt([longitude, latitude]: Position, day: Date): Declination {
  const nearest = new Date(
    Math.min(Math.max(day.getTime(), MODEL_FROM.getTime()), MODEL_TO.getTime()),
  )
  const deg = geomagnetism.model(nearest).point([latitude, longitude, 0]).decl
  return { deg, isOutsideYears: nearest.getTime() !== day.getTime() }
}

/** "9.3° E". */
export function declinationText({ deg }: Declination): string {
  return `${Math.abs(deg).toFixed(1)}° ${deg < 0 ? 'W' : 'E'}`
}
