import { describe, expect, it } from 'vitest'
import { declinationAt, MODEL_TO } from '../../web/crew/declination.ts'

/** Days of 365 from the beginning of the year, as decimal years are read. */
const dayOf = (year: number) => {
  const whole = Math.floor(year)
  return new Date(Date.UTC(whole, 0, 1) + (year - whole) * 365 * 86_400_000)
}

/**
 * Test values of the World Magnetic Model 2025 at sea level, to 0.01°: NOAA/NCEI, "WMM2025 test
 * values" (WMM2025testvalues.pdf, February 2025), column D. Read second hand, in two programs that
 * are tested against them; both agree.
 */
const PUBLISHED = [
  { year: 2025, latitude: 80, longitude: 0, deg: 1.28 },
  { year: 2025, latitude: 0, longitude: 120, deg: -0.16 },
  { year: 2025, latitude: -80, longitude: 240, deg: 68.78 },
  { year: 2027.5, latitude: 80, longitude: 0, deg: 2.59 },
  { year: 2027.5, latitude: 0, longitude: 120, deg: -0.24 },
  { year: 2027.5, latitude: -80, longitude: 240, deg: 68.49 },
] as const

describe('magnetic declination', () => {
  it.each(PUBLISHED)(
    'at $latitude°, $longitude° in $year is that of the published test values',
    ({ year, latitude, longitude, deg }) => {
      const found = declinationAt([longitude, latitude], dayOf(year))
      expect(found.isOutsideYears).toBe(false)
      expect(Math.abs(found.deg - deg)).toBeLessThanOrEqual(0.01)
    },
  )

  it('beyond the years of the model is that of its last day, and says so', () => {
    const last = declinationAt([-107, 43], MODEL_TO)
    const later = declinationAt([-107, 43], new Date('2034-05-01T00:00:00Z'))
    expect(later).toEqual({ deg: last.deg, isOutsideYears: true })
    expect(last.isOutsideYears).toBe(false)
  })
})
