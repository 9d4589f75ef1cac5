import { describe, expect, it } from 'vitest'
import { compileNetwork } from '#domain/electrical/compile-network.ts'
import { bankOfRegulator } from '#domain/electrical/regulator-bank.ts'
import { solveFeeder } from '#domain/electrical/solve-feeder.ts'
import { Sweep } from '#domain/electrical/sweep.ts'
import { feederSketch, plainLineType } from '../../support/feeder-sketch.ts'

const line = plainLineType('line', 0.3, 0.6)

function uniformFeeder(pieces: number) {
  return feederSketch({
    lineTypes: [line],
    spans: Array.from({ length: pieces }, (_, i) => ({
      id: `S${i}`,
      from: `P${i}`,
      to: `P${i + 1}`,
      phases: 'ABC' as const,
      lineType: 'line',
      lengthM: 12_000 / pieces,
    })),
    loads: Array.from({ length: pieces }, (_, i) => ({
      id: `L${i}`,
      span: `S${i}`,
      kwA: 600 / pieces,
      kwB: 600 / pieces,
      kwC: 600 / pieces,
      kvarA: 200 / pieces,
      kvarB: 200 / pieces,
      kvarC: 200 / pieces,
      constantPower: 0,
      constantCurrent: 1,
    })),
  })
}

function solved(feeder: ReturnType<typeof feederSketch>, taps: 'fixed' | 'controlled' = 'fixed') {
  const [solution] = solveFeeder(feeder, { taps })
  if (solution?.status !== 'converged') throw new Error(JSON.stringify(solution))
  return solution
}

// Kersting, chapter 3 (from memory): two thirds of a uniform load at a quarter of the length and one
// third at the end give the drop and the loss of the uniform load exactly, for constant currents.
describe('a load spread along a span', () => {
  it('drops and loses as much as the same load in two hundred pieces', () => {
    const lumped = solved(uniformFeeder(1))
    const fine = solved(uniformFeeder(200))
    const end = fine.nodes.find(({ id }) => id === 'P200')?.phases.A?.pu ?? 0
    expect(lumped.nodes.find(({ id }) => id === 'P1')?.phases.A?.pu).toBeCloseTo(end, 4)
    expect(lumped.totals.lossKw / fine.totals.lossKw).toBeCloseTo(1, 2)
  })
})

describe('tolerance', () => {
  it('reaches 1e-12 per unit', () => {
    const compiled = compileNetwork(uniformFeeder(20))
    if (compiled.status !== 'compiled') throw new Error('expected a feeder that compiles')
    const sweep = new Sweep(compiled.network)
    sweep.setCase({
      id: 'x',
      name: 'x',
      loadFactor: 1,
      classFactors: {},
      generationFactor: 0,
      hoursPerYear: 0,
    })
    sweep.startFlat()
    expect(sweep.run({ tolerancePu: 1e-12, maxIterations: 100 }).isConverged).toBe(true)
  })
})

describe('a warm start', () => {
  it('ends where a cold start does', () => {
    const feeder = feederSketch({
      lineTypes: [line],
      spans: [
        { id: 'S1', from: 'P0', to: 'P1', phases: 'ABC', lineType: 'line', lengthM: 5_000 },
        { id: 'S2', from: 'P1', to: 'P2', phases: 'ABC', lineType: 'line', lengthM: 5_000 },
      ],
      equipment: [
        {
          id: 'R1',
          pole: 'P1',
          span: 'S2',
          kind: 'regulator',
          phases: 'ABC',
          windingType: 'B',
          ptRatio: 60,
          ctPrimaryA: 100,
          bandCentreV: 122,
          bandwidthV: 2,
        },
      ],
      loads: [
        { id: 'L', pole: 'P2', kwA: 500, kwB: 300, kwC: 400, kvarA: 200, kvarB: 80, kvarC: 90 },
      ],
    })
    const compiled = compileNetwork(feeder)
    if (compiled.status !== 'compiled') throw new Error('expected a feeder that compiles')
    const warm = new Sweep(compiled.network)
    const bank = bankOfRegulator(compiled.network.regulators[0]!, 'neutral')
    warm.setCase(feeder.header.cases[0]!)
    warm.setBanks([bank])
    warm.startFlat()
    for (const tap of [0, 9, -4, 12]) {
      bank.taps.fill(tap)
      warm.applyTaps(bank)
      warm.run()
    }
    const cold = new Sweep(compiled.network)
    cold.setCase(feeder.header.cases[0]!)
    cold.setBanks([bank])
    cold.startFlat()
    cold.run()
    warm.voltageV.forEach((volts, i) => {
      expect(Math.abs(volts - (cold.voltageV[i] ?? 0))).toBeLessThan(1e-4)
    })
  })
})

describe('a load beyond what the line can carry', () => {
  it('is answered with voltage collapse and the place, not with a number', () => {
    const feeder = feederSketch({
      lineTypes: [line],
      spans: [{ id: 'S1', from: 'P0', to: 'P1', phases: 'ABC', lineType: 'line', lengthM: 30_000 }],
      loads: [{ id: 'L', pole: 'P1', kwA: 9000, kwB: 9000, kwC: 9000 }],
    })
    const [solution] = solveFeeder(feeder, { taps: 'fixed' })
    expect(solution).toMatchObject({
      status: 'not-converged',
      reason: 'voltage-collapse',
      worstNodeId: 'P1',
    })
  })
})

describe('a source with impedance behind it', () => {
  it('sags by its own drop', () => {
    const stiff = uniformFeeder(4)
    const soft = {
      ...stiff,
      header: {
        ...stiff.header,
        source: {
          ...stiff.header.source,
          impedance: { r1Ohm: 0.2, x1Ohm: 1.5, r0Ohm: 0.2, x0Ohm: 1.5 },
        },
      },
    }
    const at = (feeder: typeof stiff) => {
      const solution = solved(feeder)
      return solution.nodes.find(({ id }) => id === 'P0')?.phases.A?.pu ?? 0
    }
    expect(at(stiff)).toBeCloseTo(1, 9)
    // P R + Q X over V² of the whole load, per phase: (600 · 0.2 + 200 · 1.5) kW·ohm / (7.2 kV)².
    const drop = (600e3 * 0.2 + 200e3 * 1.5) / 7199.6 ** 2
    expect(Math.abs((1 - at(soft)) / drop - 1)).toBeLessThan(0.1)
  })
})
