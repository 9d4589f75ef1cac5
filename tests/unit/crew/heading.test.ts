import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { declinationText } from '../../../web/crew/declination.ts'
import { headingOf, turnWords } from '../../../web/crew/heading.ts'
import { trueHeadingOf } from '../../../web/crew/true-heading.ts'

const absolute = (alpha: number, beta: number, gamma: number) => ({
  alpha,
  beta,
  gamma,
  absolute: true,
})

/** Smallest angle between two directions, degrees. */
const between = (a: number, b: number) => Math.abs(((a - b + 540) % 360) - 180)

describe('the heading of a device', () => {
  it('held flat runs clockwise, against alpha (W3C Device Orientation: a device that points west has alpha 90)', () => {
    expect(headingOf(absolute(0, 0, 0), 0)?.headingDeg).toBeCloseTo(0, 9)
    expect(headingOf(absolute(90, 0, 0), 0)?.headingDeg).toBeCloseTo(270, 9)
    expect(headingOf(absolute(270, 0, 0), 0)?.headingDeg).toBeCloseTo(90, 9)
  })

  it('held upright is where its back points (W3C Device Orientation: screen vertical, top upward)', () => {
    // The specification gives alpha = 270°, beta = 0, gamma = 90° reduced to a heading of 90 − alpha mod 360
    // for the back; with beta = 90° and gamma = 0 the heading is 360 − alpha.
    for (const alpha of [0, 30, 90, 200, 359]) {
      const heading = headingOf(absolute(alpha, 90, 0), 0)?.headingDeg ?? Number.NaN
      expect(between(heading, 360 - alpha)).toBeLessThan(1e-6)
    }
  })

  it('does not jump where a device is raised from flat to upright without turning', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 359 }),
        fc.integer({ min: 0, max: 89 }),
        (alpha, beta) => {
          const low = headingOf(absolute(alpha, beta, 0), 0)?.headingDeg ?? Number.NaN
          const higher = headingOf(absolute(alpha, beta + 1, 0), 0)?.headingDeg ?? Number.NaN
          expect(between(low, higher)).toBeLessThan(1e-6)
        },
      ),
    )
  })

  it('takes the compass that a browser reads itself, with how far it may be off', () => {
    const told = { alpha: 12, beta: 3, gamma: 4, absolute: false, webkitCompassHeading: 211 }
    expect(headingOf({ ...told, webkitCompassAccuracy: 15 }, 0)).toEqual({
      headingDeg: 211,
      offByDeg: 15,
    })
    expect(headingOf({ ...told, webkitCompassAccuracy: -1 }, 0)?.offByDeg).toBeNull()
  })

  it('follows the picture where the device is held sideways', () => {
    expect(headingOf(absolute(0, 0, 0), 90)?.headingDeg).toBeCloseTo(90, 9)
    expect(headingOf(absolute(0, 0, 0), 270)?.headingDeg).toBeCloseTo(270, 9)
  })

  it('is not known from angles that are not measured from north', () => {
    expect(headingOf({ alpha: 90, beta: 0, gamma: 0, absolute: false }, 0)).toBeNull()
    expect(headingOf({ alpha: null, beta: null, gamma: null, absolute: true }, 0)).toBeNull()
  })
})

describe('which way to turn', () => {
  it('is told from where the device points, the short way round', () => {
    expect(turnWords(10, 355)).toBe('ahead, to the right')
    expect(turnWords(355, 355)).toBe('straight ahead')
    expect(turnWords(270, 10)).toBe('to the left')
    expect(turnWords(180, 2)).toBe('behind you')
    expect(turnWords(150, 10)).toBe('behind you, to the right')
  })
})

describe('the heading from true north', () => {
  const day = new Date('2026-05-01T12:00:00Z')
  const known = { status: 'known', headingDeg: 355, offByDeg: null } as const

  it('is the one that the compass reads and the declination where the device is', () => {
    const found = trueHeadingOf(known, [-107, 43], day)
    if (found.status !== 'known' || !found.declination) throw new Error('Expected a heading.')
    const { declination, headingDeg } = found
    // Magnetic north lies some ten degrees east of true north in the west of the Plains (from memory).
    expect(declination.deg).toBeGreaterThan(5)
    expect(between(headingDeg, 355 + declination.deg)).toBeLessThan(1e-9)
    expect(headingDeg).toBeLessThan(360)
    expect(declinationText(declination)).toMatch(/^\d+\.\d° E$/)
  })

  it('stays magnetic where nobody knows where the device is', () => {
    expect(trueHeadingOf(known, null, day)).toEqual({ ...known, declination: null })
    expect(declinationText({ deg: -12.34, isOutsideYears: false })).toBe('12.3° W')
  })
})
