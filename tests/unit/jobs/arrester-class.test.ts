import { describe, expect, it } from 'vitest'
import { arresterClass } from '#domain/jobs/arrester-class.ts'

/** Volts to ground may stand 5 % above nominal: ANSI C84.1, range A, from memory. */
const HIGHEST_SHARE = 1.05

describe('an arrester', () => {
  it.each([4.16, 8.32, 12, 12.47, 13.2, 13.8, 20.78, 22.86, 24.94, 34.5])(
    'of a %d kV line bears the highest volts to ground all the time',
    (lineKv) => {
      const highestKv = (lineKv / Math.sqrt(3)) * HIGHEST_SHARE
      expect(arresterClass(lineKv)?.continuousKv).toBeGreaterThanOrEqual(highestKv)
    },
  )

  it('is not named for a voltage that the table does not have', () => {
    expect(arresterClass(16)).toBeNull()
  })
})
