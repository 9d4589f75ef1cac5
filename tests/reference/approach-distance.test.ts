import { describe, expect, it } from 'vitest'
import { altitudeFactor, approachDistance } from '#domain/jobs/approach-distance.ts'

/**
 * 29 CFR 1910.269 (2014), Table R-6, feet and metres: the rows of 5.1 to 36 kV as seen in a
 * secondary transcription, the others from memory.
 */
const ROWS = [
  [0.48, 'phase to ground', 1.09, 0.33],
  [4.16, 'phase to phase', 2.07, 0.63],
  [12.47, 'phase to ground', 2.14, 0.65],
  [12.47, 'phase to phase', 2.24, 0.68],
  [24.94, 'phase to ground', 2.53, 0.77],
  [24.94, 'phase to phase', 2.92, 0.89],
  [46, 'phase to phase', 3.22, 0.98],
  [69, 'phase to ground', 3.29, 1],
] as const

/** UFC 3-560-01 (2006, change 1), table 3-2: altitude in metres and factor. */
const FACTORS = [
  [900, 1.0],
  [1200, 1.02],
  [1500, 1.05],
  [1800, 1.08],
  [2100, 1.11],
  [2400, 1.14],
  [2700, 1.17],
  [3000, 1.2],
  [3600, 1.25],
  [4200, 1.3],
  [4800, 1.35],
  [5400, 1.39],
  [6000, 1.44],
] as const

const known = (...args: Parameters<typeof approachDistance>) => {
  const found = approachDistance(...args)
  if (found.status !== 'known') throw new Error(found.why)
  return found
}

describe('the minimum approach distance', () => {
  it.each(ROWS)('at %d kV from %s is %d ft', (systemKv, exposure, distanceFt, distanceM) => {
    expect(known({ systemKv, exposure, elevationM: 300 })).toMatchObject({
      distanceFt,
      distanceM,
      factor: 1,
      notes: [],
    })
  })

  it('of a single-phase tap of 14.4 kV goes by its volts to ground', () => {
    expect(known({ systemKv: 14.4, exposure: 'phase to ground' }).row).toBe('5.1 to 15.0 kV')
    expect(known({ systemKv: 24.94, exposure: 'phase to ground' }).row).toBe('15.1 to 36.0 kV')
    // 34.5/19.92 kV is in the same row either way.
    expect(known({ systemKv: 19.92, exposure: 'phase to ground' }).row).toBe('15.1 to 36.0 kV')
    expect(known({ systemKv: 34.5, exposure: 'phase to ground' }).row).toBe('15.1 to 36.0 kV')
  })

  it('takes the next row between two of them', () => {
    expect(known({ systemKv: 15.05, exposure: 'phase to ground' }).row).toBe('15.1 to 36.0 kV')
  })

  it.each(FACTORS)('up to %d m above the sea is multiplied by %d', (elevationM, factor) => {
    expect(altitudeFactor(elevationM)).toBe(factor)
  })

  it('grows with height and is rounded up, never down', () => {
    // 2.14 ft and 0.65 m by 1.08 are 2.3112 ft and 0.702 m.
    expect(known({ systemKv: 12.47, exposure: 'phase to ground', elevationM: 1650 })).toMatchObject(
      {
        factor: 1.08,
        distanceFt: 2.32,
        distanceM: 0.71,
      },
    )
  })

  it('says that it may be too short where the height is not known', () => {
    const { notes, factor } = known({ systemKv: 12.47, exposure: 'phase to ground' })
    expect(factor).toBe(1)
    expect(notes.join()).toContain('above 900 m')
  })

  it('takes a factor of the utility where the table ends', () => {
    const high = { systemKv: 12.47, exposure: 'phase to ground', elevationM: 6200 } as const
    expect(approachDistance(high)).toMatchObject({ status: 'not known' })
    expect(known({ ...high, factor: 1.5 }).distanceFt).toBe(3.21)
  })

  it('is not guessed outside the table', () => {
    for (const systemKv of [0.12, 115]) {
      expect(approachDistance({ systemKv, exposure: 'phase to ground' }).status).toBe('not known')
    }
  })
})
