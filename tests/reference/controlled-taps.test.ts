import { describe, expect, it } from 'vitest'
import type { ByPhase, RegulatorState } from '#domain/electrical/solution.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import { PHASES, type Phase } from '#domain/units/phases.ts'
import {
  type Converged,
  publishedFeeder,
  publishedResults,
  solveOnly,
  type VoltageResults,
} from './published-feeder.ts'

/**
 * Positions of the IEEE 13 and 34 Node Test Feeders (from memory of the documents). Band: 122 V
 * and 2 V wide at the first bank of each feeder, 124 V and 2 V wide at the second of the 34-node.
 */
const TAPS = {
  ieee13: publishedResults<VoltageResults>('ieee13').taps,
  ieee34: publishedResults<VoltageResults>('ieee34').taps,
}

function bankOf(solution: Converged, id: string): RegulatorState {
  const bank = solution.regulators.find((each) => each.id === id)
  if (!bank) throw new Error(`No bank ${id}.`)
  return bank
}

function isInBand(feeder: Feeder, bank: RegulatorState, phase: Phase): boolean {
  const settings = feeder.equipment.find(({ id }) => id === bank.id)
  if (settings?.kind !== 'regulator') throw new Error(`No bank ${bank.id}.`)
  const volts = bank.relayVolts[phase] ?? Number.NaN
  return Math.abs(volts - settings.bandCentreV) <= settings.bandwidthV / 2
}

const at = (A: number, B: number, C: number): ByPhase<number> => ({ A, B, C })

describe('the bank of the IEEE 13 Node Test Feeder under its own control', async () => {
  const feeder = await publishedFeeder('ieee13')

  it('comes from neutral to the published positions 10, 8 and 11', () => {
    const solution = solveOnly(feeder, { taps: 'controlled' })
    expect(bankOf(solution, 'RG60').taps).toEqual(TAPS.ieee13.RG60)
    expect(TAPS.ieee13.RG60).toEqual(at(10, 8, 11))
  })

  it('has its compensated voltage inside the band there, on every phase', () => {
    const bank = bankOf(solveOnly(feeder, { taps: 'controlled' }), 'RG60')
    expect(PHASES.filter((phase) => !isInBand(feeder, bank, phase))).toEqual([])
  })
})

describe('the two banks of the IEEE 34 Node Test Feeder under their own control', async () => {
  const feeder = await publishedFeeder('ieee34')
  const solution = solveOnly(feeder, { taps: 'controlled' })
  const published = TAPS.ieee34

  it('come from neutral to the published positions but for one step on phase A of each', () => {
    expect(published).toEqual({ RG10: at(12, 5, 5), RG11: at(13, 11, 12) })
    expect(bankOf(solution, 'RG10').taps).toEqual(at(13, 5, 5))
    expect(bankOf(solution, 'RG11').taps).toEqual(at(12, 11, 12))
  })

  it('end with every compensated voltage inside its band', () => {
    for (const bank of solution.regulators) {
      expect(PHASES.filter((phase) => !isInBand(feeder, bank, phase))).toEqual([])
    }
  })

  it('have phase A of the second bank inside its band at 12 and at the published 13 alike', () => {
    const inBand = [12, 13].map((tap) => {
      const fixedTaps = { RG10: at(13, 5, 5), RG11: at(tap, 11, 12) }
      const bank = bankOf(solveOnly(feeder, { taps: 'fixed', fixedTaps }), 'RG11')
      return isInBand(feeder, bank, 'A')
    })
    expect(inBand).toEqual([true, true])
  })

  it('have phase A of the first bank inside its band at 12 and at 13 alike, before the second steps', () => {
    const inBand = [12, 13].map((tap) => {
      const fixedTaps = { RG10: at(tap, 5, 5), RG11: at(0, 0, 0) }
      const bank = bankOf(solveOnly(feeder, { taps: 'fixed', fixedTaps }), 'RG10')
      return isInBand(feeder, bank, 'A')
    })
    expect(inBand).toEqual([true, true])
  })

  it('take the 13th step since at all published positions phase A of the first bank is 0.52 V below its band', () => {
    const bank = bankOf(solveOnly(feeder, { taps: 'fixed' }), 'RG10')
    expect(bank.taps).toEqual(published.RG10)
    expect(PHASES.filter((phase) => !isInBand(feeder, bank, phase))).toEqual(['A'])
    expect(bank.relayVolts.A).toBeCloseTo(120.48, 1)
  })

  it('reach all six published positions when each sets itself once, from the source outward', () => {
    const toCentre = (bank: RegulatorState, centreV: number) =>
      Object.fromEntries(
        PHASES.map((phase) => [phase, Math.round((centreV - bank.relayVolts[phase]!) / 0.75)]),
      )
    const neutral = { RG10: at(0, 0, 0), RG11: at(0, 0, 0) }
    const before = solveOnly(feeder, { taps: 'fixed', fixedTaps: neutral })
    const first = toCentre(bankOf(before, 'RG10'), 122)
    expect(first).toEqual(published.RG10)

    const between = solveOnly(feeder, { taps: 'fixed', fixedTaps: { ...neutral, RG10: first } })
    const second = toCentre(bankOf(between, 'RG11'), 124)
    const after = solveOnly(feeder, { taps: 'fixed', fixedTaps: { RG10: first, RG11: second } })
    const bank = bankOf(after, 'RG11')
    const settled = PHASES.map((phase) => [
      phase,
      second[phase]! + (isInBand(feeder, bank, phase) ? 0 : 1),
    ])
    expect(Object.fromEntries(settled)).toEqual(published.RG11)
  })
})
