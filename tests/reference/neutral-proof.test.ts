import { describe, expect, it } from 'vitest'
import { finestNeededV, isNearZero } from '#domain/jobs/neutral-proof.ts'

/**
 * Volts of one step: 5/8 % (IEEE C57.15, from memory) of rated volts. That a meter has to tell a
 * step from none is common practice, no source.
 */
const STEP_V = [
  [2400, 15],
  [7200, 45],
  [7620, 47.625],
  [14400, 90],
  [19920, 124.5],
] as const

describe('volts from source to load', () => {
  it.each(STEP_V)('at %d V tell %d V, one step, from neutral', (neutralV, step) => {
    expect(isNearZero(0, neutralV)).toBe(true)
    expect(isNearZero(step, neutralV)).toBe(false)
    expect(isNearZero(-step, neutralV)).toBe(false)
  })

  it.each(STEP_V)(
    'at %d V tell a step of %d V even where the line is 10 %% low',
    (neutralV, step) => {
      expect(isNearZero(0.9 * step, neutralV)).toBe(false)
    },
  )

  it.each(STEP_V)('at %d V need a meter that shows half of %d V', (neutralV, step) => {
    expect(finestNeededV(neutralV)).toBeCloseTo(step / 2, 9)
  })
})
