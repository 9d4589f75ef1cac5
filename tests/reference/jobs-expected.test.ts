import { describe, expect, it } from 'vitest'
import { expectedAt, loadFactorFor } from '#domain/jobs/expected-readings.ts'
import type { BankWork } from '#domain/jobs/job-plan.ts'
import { relayVolts } from '#domain/jobs/relay-volts.ts'
import { complex, polar, scale } from '#domain/units/complex.ts'
import { PHASES, type Phase } from '#domain/units/phases.ts'
import { publishedFeeder, publishedResults, type VoltageResults } from './published-feeder.ts'

/**
 * IEEE PES Distribution System Analysis Subcommittee, IEEE 13 Node Test Feeder (2004 edition).
 * Tables from the document's text; voltages, taps and currents from memory.
 */
const PUBLISHED = publishedResults<
  VoltageResults & { readonly sourceCurrentsAmpDeg: readonly (readonly [number, number])[] }
>('ieee13')

describe('the readings expected at the regulator of the IEEE 13 Node Test Feeder', async () => {
  const feeder = await publishedFeeder('ieee13')
  const standing = feeder.equipment.find(({ id }) => id === 'RG60')
  if (standing?.kind !== 'regulator') throw new Error('Expected the bank RG60.')
  const neutralV = 4160 / Math.sqrt(3)
  const work: BankWork = { regulator: standing, standing, neutralV, loopOhm: 0.1 }
  const [{ id: caseId } = { id: '' }] = feeder.header.cases
  const taps = PUBLISHED.taps.RG60!
  const published = (phase: Phase) => PUBLISHED.sourceCurrentsAmpDeg[PHASES.indexOf(phase)]![0]

  it('have the published outputs of 1.0625, 1.0500 and 1.0687 at the published taps', () => {
    const now = expectedAt(feeder, work, { caseId, loadFactor: 1, taps })
    if (now.status !== 'solved') throw new Error(now.what)
    const outputs = now.readings.map(({ loadVolts120 }) => loadVolts120 / 120)
    for (const [index, pu] of [1.0625, 1.05, 1.0687].entries()) {
      expect(Math.abs(outputs[index]! - pu)).toBeLessThan(0.0005)
    }
    for (const { sourceVolts120 } of now.readings) expect(sourceVolts120).toBeCloseTo(120, 6)
  })

  it('carry the published currents of the source over the gain, within 0.5 %', () => {
    const now = expectedAt(feeder, work, { caseId, loadFactor: 1, taps })
    if (now.status !== 'solved') throw new Error(now.what)
    for (const { phase, amps, tap } of now.readings) {
      expect(Math.abs((amps * (1 + 0.00625 * tap)) / published(phase) - 1)).toBeLessThan(0.005)
    }
  })

  it('come to the published taps 10, 8 and 11 when the control is left to itself', () => {
    const now = expectedAt(feeder, work, { caseId, loadFactor: 1, taps: 'controlled' })
    if (now.status !== 'solved') throw new Error(now.what)
    const reached = Object.fromEntries(now.readings.map(({ phase, tap }) => [phase, tap]))
    expect(reached).toEqual(taps)
    for (const { relayVolts: volts } of now.readings) expect(Math.abs(volts - 122)).toBeLessThan(1)
  })

  it('find the published load again from the published currents, within 1 %', () => {
    const amps = Object.fromEntries(
      PHASES.map((phase) => [phase, published(phase) / (1 + 0.00625 * taps[phase])]),
    )
    const factor = loadFactorFor(feeder, work, { caseId, taps, amps })
    expect(Math.abs(factor! - 1)).toBeLessThan(0.01)
  })
})

/**
 * Kersting, Distribution System Modeling and Analysis, chapter 7, example on the compensator: a bank
 * of type B behind a 5000 kVA, 4.16 kV transformer, line 0.3 + j0.9 ohm, load 2500 kVA at 0.9 lagging.
 * Statement and results from memory; the results were computed again by hand.
 */
describe("what the control reads in Kersting's example on the compensator", () => {
  const settings = { ptRatio: 20, ctPrimaryA: 700, rV: 10.5, xV: 31.5 }
  const source = complex(120.09 * 20)
  const line = polar(346.97, -25.84)
  /** Type B: the load side gets V over the ratio and I times it. */
  const atTap = (tap: number) => {
    const ratio = 1 - 0.00625 * tap
    return relayVolts(settings, scale(source, 1 / ratio), scale(line, ratio))
  }

  it('is 109.24 V at neutral', () => {
    expect(atTap(0)).toBeCloseTo(109.24, 1)
  })

  it('asks for tap 13 to come into a band of 120 V, 2 V wide', () => {
    expect(Math.round((119 - atTap(0)) / 0.75)).toBe(13)
  })

  it.each([
    [12, 119.7],
    [13, 120.64],
    [14, 121.6],
    [15, 122.57],
  ])('is at tap %i %f V', (tap, volts) => {
    expect(Math.abs(atTap(tap) - volts)).toBeLessThan(0.02)
  })
})
