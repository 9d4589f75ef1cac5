import { describe, expect, it } from 'vitest'
import { compileNetwork } from '#domain/electrical/compile-network.ts'
import type { Network } from '#domain/electrical/network.ts'
import { bankOfRegulator, tapGain } from '#domain/electrical/regulator-bank.ts'
import { controlTaps, readBank } from '#domain/electrical/regulator-control.ts'
import { solveFeeder } from '#domain/electrical/solve-feeder.ts'
import { Sweep } from '#domain/electrical/sweep.ts'
import { feederSketch, plainLineType } from '../../support/feeder-sketch.ts'

const wyeBank = {
  kind: 'regulator' as const,
  phases: 'ABC' as const,
  windingType: 'B' as const,
  ptRatio: 60,
  ctPrimaryA: 200,
  bandCentreV: 124,
  bandwidthV: 2,
}

function threePhaseLoad(id: string, pole: string, kw: number, kvar: number) {
  return { id, pole, kwA: kw, kwB: kw, kwC: kw, kvarA: kvar, kvarB: kvar, kvarC: kvar }
}

function networkOf(feeder: ReturnType<typeof feederSketch>): Network {
  const compiled = compileNetwork(feeder)
  if (compiled.status !== 'compiled') throw new Error('expected a feeder that compiles')
  return compiled.network
}

// IEEE C57.15: 32 steps over ±10 %; type A 1.1000 / 0.9000, type B 1.1111 / 0.9091
// (Kersting, Distribution System Modeling and Analysis, chapter 7; from memory).
describe('range of a step regulator', () => {
  it('boosts and bucks by 10 % as type A', () => {
    expect(tapGain('A', 16)).toBeCloseTo(1.1, 12)
    expect(tapGain('A', -16)).toBeCloseTo(0.9, 12)
  })
  it('boosts to 1.1111 and bucks to 0.9091 as type B', () => {
    expect(tapGain('B', 16)).toBeCloseTo(1.1111, 4)
    expect(tapGain('B', -16)).toBeCloseTo(0.9091, 4)
  })
})

// Kersting, chapter 7, compensator example (from memory, reproduced by computation):
// 2500 kVA at 0.9 lagging and 4.16 kV, R 10.5 V, X 31.5 V, CT 700, PT 20.
describe('line-drop compensator', () => {
  const feeder = feederSketch({
    nominalKv: 4.16,
    spans: [{ id: 'S1', from: 'P0', to: 'P1', phases: 'ABC', lengthM: 0 }],
    equipment: [
      {
        ...wyeBank,
        id: 'R1',
        pole: 'P0',
        span: 'S1',
        ptRatio: 20,
        ctPrimaryA: 700,
        bandCentreV: 120,
        rV: 10.5,
        xV: 31.5,
      },
    ],
    loads: [
      {
        ...threePhaseLoad('L1', 'P1', 750, (2500 / 3) * Math.sqrt(1 - 0.81)),
        constantPower: 0,
        constantCurrent: 1,
      },
    ],
  })
  const network = networkOf(feeder)
  const sweep = new Sweep(network)
  const bank = bankOfRegulator(network.regulators[0]!, 'neutral')
  sweep.setCase(feeder.header.cases[0]!)
  sweep.setBanks([bank])
  sweep.startFlat()
  sweep.run()

  it('sees 109.24 V at neutral, as the worked example does', () => {
    const reading = readBank(sweep, bank)
    expect(reading.currentA[0]).toBeCloseTo(346.97, 2)
    expect(reading.outputVolts120[0]).toBeCloseTo(120.09, 2)
    expect(reading.relayVolts[0]).toBeCloseTo(109.24, 2)
  })
  it('puts out 2614.18 V at tap 13, as the worked example does', () => {
    bank.taps.fill(13)
    sweep.applyTaps(bank)
    sweep.run()
    expect((readBank(sweep, bank).outputVolts120[0] ?? 0) * 20).toBeCloseTo(2614.18, 1)
  })
})

describe('control of several banks', () => {
  const cascade = (delays: readonly [number, number]) =>
    feederSketch({
      source: { voltagePu: 1.03 },
      lineTypes: [plainLineType('line', 0.4, 0.5)],
      spans: [
        { id: 'S1', from: 'P0', to: 'P1', phases: 'ABC', lineType: 'line', lengthM: 10_000 },
        { id: 'S2', from: 'P1', to: 'P2', phases: 'ABC', lineType: 'line', lengthM: 10_000 },
        { id: 'S3', from: 'P2', to: 'P3', phases: 'ABC', lineType: 'line', lengthM: 8_000 },
      ],
      equipment: [
        { ...wyeBank, id: 'R1', pole: 'P1', span: 'S2', delayS: delays[0] },
        { ...wyeBank, id: 'R2', pole: 'P2', span: 'S3', delayS: delays[1] },
      ],
      loads: [threePhaseLoad('L2', 'P2', 350, 120), threePhaseLoad('L3', 'P3', 250, 90)],
    })

  function settle(feeder: ReturnType<typeof feederSketch>, mode: 'aimed' | 'stepped') {
    const network = networkOf(feeder)
    const sweep = new Sweep(network)
    const banks = network.regulators.map((regulator) => bankOfRegulator(regulator, 'neutral'))
    sweep.setCase(feeder.header.cases[0]!)
    sweep.setBanks(banks)
    sweep.startFlat()
    const outcome = controlTaps(sweep, mode)
    return { outcome, banks, sweep }
  }

  it.each(['aimed', 'stepped'] as const)('brings every unit into its band when %s', (mode) => {
    const { outcome, banks, sweep } = settle(cascade([30, 45]), mode)
    expect(outcome.status).toBe('settled')
    for (const bank of banks) {
      for (const volts of readBank(sweep, bank).relayVolts) {
        expect(Math.abs(volts - 124)).toBeLessThanOrEqual(1)
      }
    }
  })
  it('leaves less to the far bank when the near one steps first', () => {
    const first = settle(cascade([30, 600]), 'stepped').banks
    const last = settle(cascade([600, 30]), 'stepped').banks
    expect(first[1]!.taps[0]).toBeLessThan(last[1]!.taps[0]!)
  })
  it('stops at the end of the range and says which phases are there', () => {
    const feeder = cascade([30, 45])
    const weak = {
      ...feeder,
      header: { ...feeder.header, source: { ...feeder.header.source, voltagePu: 0.88 } },
      equipment: feeder.equipment.slice(0, 1),
    }
    const [solution] = solveFeeder(weak, { taps: 'controlled' })
    if (solution?.status !== 'converged') throw new Error('expected a solution')
    expect(solution.regulators[0]?.taps).toEqual({ A: 16, B: 16, C: 16 })
    expect(solution.regulators[0]?.atLimit).toEqual(['A', 'B', 'C'])
  })
  it('holds a bank to a narrower range when its record says so', () => {
    const feeder = cascade([30, 45])
    const held = {
      ...feeder,
      equipment: feeder.equipment.map((item) =>
        item.kind === 'regulator' ? { ...item, maxRaise: 8 } : item,
      ),
    }
    const [solution] = solveFeeder(held, { taps: 'controlled' })
    if (solution?.status !== 'converged') throw new Error('expected a solution')
    for (const { taps } of solution.regulators) {
      for (const tap of Object.values(taps)) expect(tap).toBeLessThanOrEqual(8)
    }
  })
})
