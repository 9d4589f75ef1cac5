import { describe, expect, it } from 'vitest'
import { solveFeeder } from '#domain/electrical/solve-feeder.ts'
import { expectedAt, expectedInCases, loadFactorFor } from '#domain/jobs/expected-readings.ts'
import { readDemoFeeder } from '../../support/demo-feeder.ts'
import { SAMPLE_BANK, sampleFeeder, sampleWork } from './sample-bank.ts'

const readingsAt = (...given: Parameters<typeof expectedAt>) => {
  const now = expectedAt(...given)
  if (now.status !== 'solved') throw new Error(now.what)
  return now.readings
}

describe('the readings that a crew should find at a bank that is to be set', () => {
  const feeder = sampleFeeder()
  const work = sampleWork()

  it('are those of the power flow with the bank in the feeder, in every case', () => {
    const cases = expectedInCases(feeder, work).cases
    const solved = solveFeeder(feeder, { taps: 'controlled', extraBanks: [SAMPLE_BANK] })
    expect(cases.map(({ caseId }) => caseId)).toEqual(['peak', 'light'])
    for (const [index, solution] of solved.entries()) {
      if (solution.status !== 'converged') throw new Error('Expected a solution.')
      const state = solution.regulators.find(({ id }) => id === 'REG-P2')!
      const source = solution.nodes.find(({ id }) => id === 'P2')!
      for (const reading of cases[index]!.readings) {
        expect(reading.tap).toBe(state.taps[reading.phase])
        expect(reading.relayVolts).toBeCloseTo(state.relayVolts[reading.phase]!, 6)
        expect(reading.amps).toBeCloseTo(state.currentA[reading.phase]!, 6)
        expect(reading.sourceVolts120).toBeCloseTo(source.phases[reading.phase]!.volts120, 2)
      }
    }
  })

  it('give as many volts more on the load side as the tap of type B says', () => {
    for (const { tap, sourceV, loadV } of expectedInCases(feeder, work).cases[0]!.readings) {
      expect(tap).toBeGreaterThan(0)
      expect(sourceV / loadV).toBeCloseTo(1 - 0.00625 * tap, 9)
    }
  })

  it('hold the control inside its band', () => {
    for (const { readings } of expectedInCases(feeder, work).cases) {
      for (const { relayVolts } of readings) expect(Math.abs(relayVolts - 122)).toBeLessThan(1)
    }
  })

  it('follow the taps that the crew reads off, at neutral with both sides alike', () => {
    const neutral = { A: 0, B: 0, C: 0 }
    for (const { sourceV, loadV, tap } of readingsAt(feeder, work, {
      caseId: 'peak',
      loadFactor: 1,
      taps: neutral,
    })) {
      expect(tap).toBe(0)
      expect(loadV).toBe(sourceV)
    }
  })

  it('are not given where the load is more than the line can carry', () => {
    const now = expectedAt(feeder, work, { caseId: 'peak', loadFactor: 40, taps: 'controlled' })
    expect(now.status).toBe('not solved')
    expect(now.status === 'not solved' && now.what).toMatch(/does not converge in Peak/)
  })

  it('are not given where no power reaches the span', () => {
    const dead = {
      ...feeder,
      spans: feeder.spans.map((span) => ({ ...span, isNormallyOpen: span.id === 'P2:P3' })),
    }
    const now = expectedAt(dead, work, { caseId: 'peak', loadFactor: 1, taps: 'controlled' })
    expect(now.status).toBe('not solved')
    expect(expectedInCases(dead, work).cases).toEqual([])
    expect(loadFactorFor(dead, work, { caseId: 'peak', taps: 'controlled', amps: { A: 9 } })).toBe(
      null,
    )
  })

  it('refuse a case that the feeder does not have', () => {
    const given = { caseId: 'dawn', loadFactor: 1, taps: 'controlled' as const }
    expect(() => expectedAt(feeder, work, given)).toThrow('has no case "dawn"')
  })
})

describe('the load at which the model carries what the crew reads off', () => {
  const feeder = sampleFeeder()
  const work = sampleWork()
  const taps = { A: 4, B: 3, C: 2 }

  it.each([0.2, 0.65, 1, 1.8])('is found again from the amps at %s times the peak', (factor) => {
    const amps = Object.fromEntries(
      readingsAt(feeder, work, { caseId: 'peak', loadFactor: factor, taps }).map((reading) => [
        reading.phase,
        reading.amps,
      ]),
    )
    const found = loadFactorFor(feeder, work, { caseId: 'peak', taps, amps })
    expect(found).toBeCloseTo(factor, 4)
  })

  it('can be found from one phase alone', () => {
    const given = { caseId: 'peak', loadFactor: 0.5, taps }
    const amps = readingsAt(feeder, work, given).find(({ phase }) => phase === 'B')!.amps
    const found = loadFactorFor(feeder, work, { caseId: 'peak', taps, amps: { B: amps } })
    expect(found).toBeCloseTo(0.5, 4)
  })

  it('is nothing where no load carries so much, or nothing was read off', () => {
    const of = (amps: { A?: number }) => loadFactorFor(feeder, work, { caseId: 'peak', taps, amps })
    expect(of({ A: 5000 })).toBe(null)
    expect(of({})).toBe(null)
  })

  it('is none at all where the crew reads nothing flowing', () => {
    const amps = { A: 0, B: 0, C: 0 }
    expect(loadFactorFor(feeder, work, { caseId: 'peak', taps, amps })).toBe(0)
  })
})

describe('the load beyond which generation stands', async () => {
  const feeder = await readDemoFeeder('skillet')
  const standing = feeder.equipment.find(({ id }) => id === 'regulator-S-144')
  if (standing?.kind !== 'regulator') throw new Error('The demo has no bank.')
  const work = { regulator: standing, standing, neutralV: 24_940 / Math.sqrt(3), loopOhm: 0.1 }
  const taps = { A: 1, B: 1, C: 1 }

  it.each([0.3, 1, 1.5])(
    'is told by the single phases at %s times May noon, though two loads carry as much in all',
    (factor) => {
      const readings = readingsAt(feeder, work, { caseId: 'solar-noon', loadFactor: factor, taps })
      const amps = Object.fromEntries(readings.map((each) => [each.phase, each.amps]))
      const found = loadFactorFor(feeder, work, { caseId: 'solar-noon', taps, amps })
      expect(found).toBeCloseTo(factor, 3)
    },
  )

  it('is none where the plant alone sends back more than was read, whatever the load', () => {
    const amps = { A: 0, B: 0, C: 0 }
    expect(loadFactorFor(feeder, work, { caseId: 'solar-noon', taps, amps })).toBe(null)
  })
})

describe('a bank that stands already', async () => {
  const feeder = await readDemoFeeder('skillet')
  const standing = feeder.equipment.find(({ id }) => id === 'regulator-S-144')
  if (standing?.kind !== 'regulator') throw new Error('The demo has no bank.')
  const neutralV = 24_940 / Math.sqrt(3)

  it('is read as it stands, and with new settings as they will be', () => {
    const now = expectedInCases(feeder, {
      regulator: standing,
      standing,
      neutralV,
      loopOhm: 0.1,
    }).cases
    const regulator = { ...standing, bandCentreV: standing.bandCentreV - 3 }
    const then = expectedInCases(feeder, { regulator, standing, neutralV, loopOhm: 0.1 }).cases
    expect(now).toHaveLength(feeder.header.cases.length)
    for (const [index, { readings }] of now.entries()) {
      for (const [unit, { relayVolts, tap }] of readings.entries()) {
        expect(Math.abs(relayVolts - 124)).toBeLessThan(1)
        const changed = then[index]!.readings[unit]!
        expect(Math.abs(changed.relayVolts - 121)).toBeLessThan(1)
        expect(changed.tap).toBeLessThan(tap)
      }
    }
  })

  it('is not counted twice where another one takes its place under a new id', () => {
    const regulator = { ...standing, id: 'REG-S-144' }
    const work = { regulator, standing, neutralV, loopOhm: 0.1 }
    const same = { ...work, regulator: standing }
    expect(expectedInCases(feeder, work).cases).toEqual(expectedInCases(feeder, same).cases)
  })
})
