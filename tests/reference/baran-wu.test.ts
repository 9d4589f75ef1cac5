import { describe, expect, it } from 'vitest'
import { publishedFeeder, publishedResults, solveOnly } from './published-feeder.ts'

/**
 * M. E. Baran and F. F. Wu, IEEE Transactions on Power Delivery 4(1) and 4(2), 1989. Base-case loss
 * and lowest voltage are widely published (from memory); the voltages of every bus come from an
 * independent computation, not from a publication.
 */
interface BusResults {
  readonly computed: {
    readonly voltages: Record<string, { readonly pu: number; readonly deg: number }>
  }
}

const CASES = [
  { id: 'bw33', lossKw: 202.68, lowestPu: 0.9131, lowestBus: '18', loadKw: 3715, buses: 33 },
  { id: 'bw69', lossKw: 224.98, lowestPu: 0.9092, lowestBus: '65', loadKw: 3801.89, buses: 69 },
] as const

describe.each(CASES)('the Baran and Wu feeder $id', async (published) => {
  const solution = solveOnly(await publishedFeeder(published.id), { taps: 'fixed' })

  it(`loses the published ${published.lossKw} kW`, () => {
    expect(Math.abs(solution.totals.lossKw - published.lossKw)).toBeLessThan(0.01)
    expect(solution.totals.loadKw).toBeCloseTo(published.loadKw, 6)
  })

  it(`is lowest at bus ${published.lowestBus} with the published ${published.lowestPu} per unit`, () => {
    const [lowest] = solution.nodes.toSorted((a, b) => a.phases.A!.pu - b.phases.A!.pu)
    expect(lowest!.id).toBe(published.lowestBus)
    expect(Math.abs(lowest!.phases.A!.pu - published.lowestPu)).toBeLessThan(0.00005)
  })

  it('has the voltage of every bus that an independent computation gives', () => {
    const { computed } = publishedResults<BusResults>(published.id)
    expect(Object.keys(computed.voltages)).toHaveLength(published.buses)
    for (const [bus, { pu, deg }] of Object.entries(computed.voltages)) {
      const { A } = solution.nodes.find(({ id }) => id === bus)!.phases
      expect(Math.abs(A!.pu - pu)).toBeLessThan(0.00001)
      expect(Math.abs(A!.angleDeg - deg)).toBeLessThan(0.0002)
    }
  })

  it('answers the same on all three phases, since the load is balanced and nothing couples', () => {
    for (const { phases } of solution.nodes) {
      expect(phases.B!.pu).toBeCloseTo(phases.A!.pu, 9)
      expect(phases.C!.pu).toBeCloseTo(phases.A!.pu, 9)
    }
  })
})
