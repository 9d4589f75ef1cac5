import { describe, expect, it } from 'vitest'
import { VoltageLimits } from '#domain/feeder/header.ts'
import { SERVICE_RANGE_A, SERVICE_RANGE_B } from '#domain/siting/service-ranges.ts'
import { lineToNeutralV, volts120OfPu } from '#domain/units/voltage-base.ts'

describe('voltage at the meter (ANSI C84.1, service up to 600 V, as a utility page quotes it)', () => {
  it('may lie from 114 to 126 V in Range A, 5 % to either side of 120 V', () => {
    expect(SERVICE_RANGE_A).toEqual({ lowVolts120: 114, highVolts120: 126 })
    expect(volts120OfPu(0.95)).toBeCloseTo(SERVICE_RANGE_A.lowVolts120, 9)
    expect(volts120OfPu(1.05)).toBeCloseTo(SERVICE_RANGE_A.highVolts120, 9)
  })

  it('may lie from 110 to 127 V in Range B', () => {
    expect(SERVICE_RANGE_B).toEqual({ lowVolts120: 110, highVolts120: 127 })
  })
})

describe('voltage on the primary', () => {
  it('falls at most 8 V, from 126 to 118, where nothing else is said (RUS Bulletin 1724D-113, from memory)', () => {
    expect(VoltageLimits.parse({})).toEqual({ lowVolts120: 118, highVolts120: 126 })
  })

  /** Line-to-neutral volts of services above 600 V (ANSI C84.1, table 1, from memory). */
  it.each([
    { nominalKv: 12.47, lowA: 7020, highA: 7560, lowB: 6840, highB: 7620 },
    { nominalKv: 13.2, lowA: 7430, highA: 8000, lowB: 7240, highB: 8070 },
    { nominalKv: 24.94, lowA: 14040, highA: 15120, lowB: 13680, highB: 15240 },
    { nominalKv: 34.5, lowA: 19420, highA: 20920, lowB: 18930, highB: 21080 },
  ])('of $nominalKv kV has its table values at 117, 126, 114 and 127 V', (row) => {
    const onBase = (volts: number) => volts120OfPu(volts / lineToNeutralV(row.nominalKv))
    expect(Math.abs(onBase(row.lowA) - 117)).toBeLessThan(0.1)
    expect(Math.abs(onBase(row.highA) - 126)).toBeLessThan(0.1)
    expect(Math.abs(onBase(row.lowB) - 114)).toBeLessThan(0.1)
    expect(Math.abs(onBase(row.highB) - 127)).toBeLessThan(0.1)
  })
})
