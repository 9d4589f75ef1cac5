import { describe, expect, it } from 'vitest'
import type { NodeVoltage } from '#domain/electrical/solution.ts'
import { PAIR_ENDS, PHASES, type Phase, type PhasePair } from '#domain/units/phases.ts'
import {
  angleBetween,
  type Converged,
  type PublishedId,
  publishedFeeder,
  publishedResults,
  solveOnly,
} from './published-feeder.ts'

interface Phasor {
  readonly size: number
  readonly deg: number
}

/** Volts and amperes of the IEEE 4 Node Test Feeder, step-down case (from memory). */
interface FourNodeResults {
  readonly lineToNeutralV: Record<string, Record<Phase, Phasor>>
  readonly lineToLineV?: Record<string, Record<PhasePair, Phasor>>
  readonly currentsA: Record<string, Record<Phase, Phasor>>
}

const VARIANTS: readonly PublishedId[] = [
  'ieee4-yy-balanced',
  'ieee4-yy-unbalanced',
  'ieee4-dy-balanced',
  'ieee4-dy-unbalanced',
]
const VOLTAGE_BOUND_PU = 0.0005
/** The published angles carry one decimal. */
const ANGLE_BOUND_DEG = 0.06

function nodeOf(solution: Converged, id: string): NodeVoltage {
  const node = solution.nodes.find((each) => each.id === id)
  if (!node) throw new Error(`No node ${id}.`)
  return node
}

function lineToLine({ phases, nominalV }: NodeVoltage, pair: PhasePair): Phasor {
  const [from, to] = PAIR_ENDS[pair].map((index) => phases[PHASES[index]!]!)
  const part = (phasor: typeof from, wave: (radians: number) => number) =>
    phasor!.pu * nominalV * wave((phasor!.angleDeg * Math.PI) / 180)
  const re = part(from, Math.cos) - part(to, Math.cos)
  const im = part(from, Math.sin) - part(to, Math.sin)
  return { size: Math.hypot(re, im), deg: (Math.atan2(im, re) * 180) / Math.PI }
}

describe.each(VARIANTS)('the IEEE 4 Node Test Feeder, variant %s (from memory)', async (id) => {
  const published = publishedResults<FourNodeResults>(id)
  const solution = solveOnly(await publishedFeeder(id), { taps: 'fixed' })

  it('has every published line-to-neutral voltage within 0.0005 per unit', () => {
    const rows = Object.entries(published.lineToNeutralV)
    expect(rows.length).toBeGreaterThanOrEqual(2)
    for (const [nodeId, phases] of rows) {
      const { nominalV, phases: computed } = nodeOf(solution, nodeId)
      for (const phase of PHASES) {
        const { pu, angleDeg } = computed[phase]!
        expect(Math.abs(pu - phases[phase].size / nominalV)).toBeLessThan(VOLTAGE_BOUND_PU)
        expect(angleBetween(angleDeg, phases[phase].deg)).toBeLessThan(ANGLE_BOUND_DEG)
      }
    }
  })

  const { lineToLineV, currentsA } = published
  if (lineToLineV) {
    it('has the published line-to-line voltages before the delta side', () => {
      for (const [nodeId, pairs] of Object.entries(lineToLineV)) {
        const node = nodeOf(solution, nodeId)
        for (const pair of ['AB', 'BC', 'CA'] as const) {
          const { size, deg } = lineToLine(node, pair)
          const nominalV = node.nominalV * Math.sqrt(3)
          expect(Math.abs(size - pairs[pair].size) / nominalV).toBeLessThan(VOLTAGE_BOUND_PU)
          expect(angleBetween(deg, pairs[pair].deg)).toBeLessThan(ANGLE_BOUND_DEG)
        }
      }
    })
  }

  // The currents of the balanced delta case were not remembered.
  for (const [spanId, phases] of Object.entries(currentsA)) {
    it(`has the published currents of line ${spanId} within 0.1 %`, () => {
      const flow = solution.spans.find((span) => span.id === spanId)
      for (const phase of PHASES) {
        const { amps, angleDeg } = flow!.current[phase]!
        expect(Math.abs(amps / phases[phase].size - 1)).toBeLessThan(0.001)
        expect(angleBetween(angleDeg, phases[phase].deg)).toBeLessThan(ANGLE_BOUND_DEG)
      }
    })
  }
})
