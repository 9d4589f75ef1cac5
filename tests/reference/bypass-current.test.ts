import { describe, expect, it } from 'vitest'
import { bypassInWords, bypassOffNeutral, stepV } from '#domain/jobs/bypass-current.ts'

/**
 * Volts of one step and of sixteen, by the 5/8 % of IEEE C57.15 (from memory) on its rated volts;
 * 0.75 V on 120 is the same step as trade handbooks give it.
 */
const VOLTS = [
  [2400, 15, 240],
  [2500, 15.625, 250],
  [4800, 30, 480],
  [5000, 31.25, 500],
  [7200, 45, 720],
  [7620, 47.625, 762],
  [13200, 82.5, 1320],
  [14400, 90, 1440],
  [19920, 124.5, 1992],
] as const

/** One step at 7620 V by Ohm's law; the loops are illustrations, not measurements. */
const AMPS = [
  [0.02, 2381],
  [0.05, 953],
  [0.1, 476],
  [0.2, 238],
] as const

describe('a bypass that is closed off neutral', () => {
  it.each(VOLTS)('at %d V stands at %d V one step off and %d V at the end', (rated, one, all) => {
    expect(stepV(rated)).toBeCloseTo(one, 9)
    expect(bypassOffNeutral(rated, 16, 1).volts).toBeCloseTo(all, 9)
    expect(bypassOffNeutral(rated, -16, 1).volts).toBeCloseTo(all, 9)
  })

  it('sees 0.75 V for each step on the base of 120 V', () => {
    expect(stepV(120)).toBeCloseTo(0.75, 9)
  })

  it.each(AMPS)('one step off at 7620 V drives through %d ohm %d A', (loopOhm, amps) => {
    expect(Math.round(bypassOffNeutral(7620, 1, loopOhm).amps)).toBe(amps)
  })

  it('drives 25 times rated current at full tap where 4 % on its own base is all that limits it', () => {
    // The series winding is 762 V and 219 A, which makes its base 3.479 ohm. Illustration by Ohm's law.
    const { amps } = bypassOffNeutral(7620, 16, (0.04 * 762) / 219)
    expect(amps).toBeCloseTo(5475, 0)
    expect(amps / 219).toBeCloseTo(25, 6)
  })

  it('does nothing at neutral', () => {
    expect(bypassOffNeutral(7200, 0, 0.05)).toEqual({ volts: 0, amps: 0 })
  })

  it('is told in figures', () => {
    expect(bypassInWords(7200, 0.05)).toBe(
      'One step off neutral puts 45.0 V across it and about 900 A through a loop of 0.05 ohm; sixteen steps 720 V and 14,400 A.',
    )
  })

  it('is told no finer than the loop is known', () => {
    // 25 kV between phases is 14,434 V to neutral; the figures by 5/8 % and Ohm's law.
    expect(bypassInWords(14_434, 0.1)).toBe(
      'One step off neutral puts 90.2 V across it and about 900 A through a loop of 0.1 ohm; sixteen steps 1,440 V and 14,430 A.',
    )
  })

  it('cannot be told for a loop without impedance', () => {
    expect(() => bypassOffNeutral(7200, 1, 0)).toThrow('got 0')
  })
})
