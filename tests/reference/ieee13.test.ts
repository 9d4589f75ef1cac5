import { describe, expect, it } from 'vitest'
import {
  angleBetween,
  publishedFeeder,
  publishedResults,
  solveOnly,
  type VoltageResults,
  voltageDifferences,
} from './published-feeder.ts'

/**
 * IEEE PES Distribution System Analysis Subcommittee, IEEE 13 Node Test Feeder (2004 edition).
 * Line, load and equipment tables from the document's text; voltages, taps and totals from memory.
 */
const PUBLISHED = publishedResults<
  VoltageResults & { readonly sourceCurrentsAmpDeg: readonly (readonly [number, number])[] }
>('ieee13')

const solution = solveOnly(await publishedFeeder('ieee13'), { taps: 'fixed' })

describe('the IEEE 13 Node Test Feeder with its taps as published', () => {
  it('has every published voltage within 0.0005 per unit and 0.05 degrees', () => {
    const differences = voltageDifferences(solution, PUBLISHED.voltages)
    expect(differences).toHaveLength(35)
    const off = differences.filter(({ pu, deg }) => !(pu < 0.0005 && deg < 0.05))
    expect(off).toEqual([])
  })

  it('draws the published input and loses the published kilowatts, within 0.5 %', () => {
    const { inputKw, lossKw } = solution.totals
    expect(Math.abs(inputKw / PUBLISHED.totals.inputKw - 1)).toBeLessThan(0.005)
    expect(Math.abs(lossKw / PUBLISHED.totals.lossKw - 1)).toBeLessThan(0.005)
  })

  it('draws the published currents into the regulator, within 0.5 % and 0.1 degrees', () => {
    const bank = solution.regulators.find(({ id }) => id === 'RG60')
    const head = solution.spans.find(({ id }) => id === '650-632')
    const phases = ['A', 'B', 'C'] as const
    phases.forEach((phase, index) => {
      const [publishedA, publishedDeg] = PUBLISHED.sourceCurrentsAmpDeg[index]!
      const gain = 1 + 0.00625 * bank!.taps[phase]!
      const current = head!.current[phase]!
      expect(Math.abs((current.amps * gain) / publishedA - 1)).toBeLessThan(0.005)
      expect(angleBetween(current.angleDeg, publishedDeg)).toBeLessThan(0.1)
    })
  })

  it('puts the regulator outputs at 1 + 0.00625 times the tap', () => {
    const output = solution.nodes.find(({ id }) => id === 'RG60:out')
    expect(output!.phases.A!.pu).toBeCloseTo(1.0625, 9)
    expect(output!.phases.B!.pu).toBeCloseTo(1.05, 9)
    expect(output!.phases.C!.pu).toBeCloseTo(1.06875, 9)
  })

  it('gives the 480 V side of the transformer per unit of its own nominal voltage', () => {
    const node = solution.nodes.find(({ id }) => id === '634')
    expect(node!.nominalV).toBeCloseTo(480 / Math.sqrt(3), 6)
  })
})
