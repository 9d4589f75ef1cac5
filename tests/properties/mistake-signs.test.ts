import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { tapGain } from '#domain/electrical/regulator-bank.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import { bankBench } from '#domain/jobs/bank-bench.ts'
import { expectedInCases } from '#domain/jobs/expected-readings.ts'
import type { BankWork } from '#domain/jobs/job-plan.ts'
import { METER_TOLERANCE_VOLTS120, mistakeSigns } from '#domain/jobs/mistake-signs.ts'
import {
  leftToControl,
  otherWindingType,
  rightWiring,
  swappedLeads,
} from '#domain/jobs/wrong-wiring.ts'
import { SAMPLE_BANK, sampleFeeder, sampleWork } from '../unit/jobs/sample-bank.ts'

const kw = fc.integer({ min: 0, max: 700 })

const feeders = fc.tuple(kw, kw, kw).map(([kwA, kwB, kwC]): Feeder => {
  const feeder = sampleFeeder()
  const loads = feeder.loads.map((load) => ({
    ...load,
    ...{ kwA, kwB, kwC, kvarA: kwA * 0.3, kvarB: kwB * 0.3, kvarC: kwC * 0.3 },
  }))
  return { ...feeder, loads }
})

const works = fc
  .record({
    windingType: fc.constantFrom('A' as const, 'B' as const),
    phases: fc.constantFrom('ABC' as const, 'AC' as const, 'B' as const),
    bandCentreV: fc.integer({ min: 117, max: 126 }),
    bandwidthV: fc.constantFrom(1.5, 2, 3),
    rV: fc.integer({ min: 0, max: 6 }),
    xV: fc.integer({ min: 0, max: 6 }),
    maxRaise: fc.constantFrom(16, 8),
  })
  .map((change): BankWork => sampleWork(change))

describe('signs of a mistake on any bank and load', () => {
  it('give figures only where they differ by more than a meter can tell', () => {
    fc.assert(
      fc.property(feeders, works, (feeder, work) => {
        const sentences = mistakeSigns(feeder, work).flatMap(({ signs }) => signs)
        const found = sentences.flatMap((sentence) => {
          const volts = /load volts \d+ V \(([\d.]+)\), where \d+ V \(([\d.]+)\)/.exec(sentence)
          return volts ? [Math.abs(Number(volts[1]) - Number(volts[2]))] : []
        })
        // Both figures are rounded to a tenth.
        for (const offV of found) expect(offV).toBeGreaterThan(METER_TOLERANCE_VOLTS120 - 0.11)
        expect(sentences.join()).not.toMatch(/NaN|Infinity|undefined/)
      }),
      { numRuns: 40 },
    )
  })

  it('are held against where the controls really come to rest', () => {
    fc.assert(
      fc.property(feeders, works, (feeder, work) => {
        const bench = bankBench(feeder, work.regulator)
        if (bench.status === 'not solved') throw new Error(bench.what)
        for (const { caseId, readings } of expectedInCases(feeder, work).cases) {
          const loadCase = feeder.header.cases.find(({ id }) => id === caseId)!
          const left = leftToControl(bench, rightWiring(work.regulator), loadCase, work.regulator)
          if (left.status === 'not solved') throw new Error(left.what)
          for (const { phase, tap } of readings) expect(left.positions[phase]).toBe(tap)
        }
      }),
      { numRuns: 40 },
    )
  })
})

/** The unit holds V_L over V_S at its gain, whichever side the source is on. */
describe('a bank with its leads swapped', () => {
  it('has the load side over the source side at one over its gain, at every position', () => {
    for (const windingType of ['A', 'B'] as const) {
      const regulator = { ...SAMPLE_BANK, windingType }
      const wiring = swappedLeads(regulator)
      for (let position = -16; position <= 16; position++) {
        const gain = tapGain(otherWindingType(regulator).windingType, wiring.tapOf('A', position))
        expect(gain * tapGain(windingType, position)).toBeCloseTo(1, 12)
      }
    }
  })
})
