import { describe, expect, it } from 'vitest'
import {
  publishedFeeder,
  publishedResults,
  solveOnly,
  type VoltageResults,
  voltageDifferences,
} from './published-feeder.ts'

/**
 * IEEE PES Distribution System Analysis Subcommittee, IEEE 34 Node Test Feeder (2004 edition).
 * Line segments from the published table; everything else from memory of the document.
 */
const PUBLISHED = publishedResults<VoltageResults>('ieee34')

const feeder = await publishedFeeder('ieee34')
const solution = solveOnly(feeder, { taps: 'fixed' })

describe('the IEEE 34 Node Test Feeder with its taps as published', () => {
  it('has every published voltage within 0.0005 per unit', () => {
    const differences = voltageDifferences(solution, PUBLISHED.voltages)
    expect(differences).toHaveLength(92)
    expect(differences.filter(({ pu }) => !(pu < 0.0005))).toEqual([])
  })

  it('has every published angle within 0.05 degrees', () => {
    const differences = voltageDifferences(solution, PUBLISHED.voltages)
    expect(differences.filter(({ deg }) => !(deg < 0.05))).toEqual([])
  })

  it('loses the published 273.05 kW within 0.5 %, and draws the published input', () => {
    expect(Math.abs(solution.totals.lossKw / 273.05 - 1)).toBeLessThan(0.005)
    expect(Math.abs(solution.totals.inputKw / PUBLISHED.totals.inputKw - 1)).toBeLessThan(0.005)
  })

  it('takes the 4.16 kV side below node 832 on its own base, as far as node 890', () => {
    for (const id of ['888', '890']) {
      const node = solution.nodes.find((each) => each.id === id)
      expect(node!.nominalV).toBeCloseTo(4160 / Math.sqrt(3), 6)
    }
  })

  it('names every pole, and both ends of every span, as the feeder does', () => {
    const poles = solution.nodes.filter(({ id, poleId }) => id === poleId).map(({ id }) => id)
    expect(poles.toSorted()).toEqual(feeder.poles.map(({ id }) => id).toSorted())
    const ends = ({ id, from, to }: { id: string; from: string; to: string }) => [id, from, to]
    expect(solution.spans.map(ends).toSorted()).toEqual(feeder.spans.map(ends).toSorted())
  })
})
