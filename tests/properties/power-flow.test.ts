import fc from 'fast-check'
import { type Complex, subtract } from 'mathjs'
import { describe, expect, it } from 'vitest'
import { solveFeeder } from '#domain/electrical/solve-feeder.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import { PHASES } from '#domain/units/phases.ts'
import {
  NEXT,
  withOneDeviceInFront,
  withoutBypassedBanks,
  withPhasesRenamed,
  withRowsReversed,
  withVoltagesScaled,
} from './feeder-changes.ts'
import { type Converged, flowBalance, voltsOf } from './flow-balance.ts'
import { nodalModel } from './nodal-model.ts'
import { sizeOf, solveNodal } from './nodal-solution.ts'
import { randomFeeder } from './random-feeder.ts'

function solved(feeder: Feeder): Converged {
  const [solution] = solveFeeder(feeder, { taps: 'fixed' })
  if (solution?.status !== 'converged') throw new Error(`Not solved: ${JSON.stringify(solution)}`)
  return solution
}

/** Per unit and angle of every node and phase, keyed `node phase`. */
function perUnit(solution: Converged) {
  return new Map(
    solution.nodes.flatMap(({ id, phases }) =>
      PHASES.flatMap((phase) => {
        const at = phases[phase]
        return at ? [[`${id} ${phase}`, at] as const] : []
      }),
    ),
  )
}

const forRandomFeeders = (runs: number, hold: (feeder: Feeder) => void) =>
  fc.assert(fc.property(randomFeeder, hold), { numRuns: runs })

describe('the power flow of a random unbalanced feeder', () => {
  // Reference: nodal-admittance equations solved with mathjs, without a sweep and without the code under test.
  it('agrees with a nodal-admittance solution at every pole and phase within 1e-6 per unit', () => {
    forRandomFeeders(100, (feeder) => {
      const model = nodalModel(feeder)
      const expected = solveNodal(model)
      const found = voltsOf(solved(feeder))
      const poles = new Set(feeder.poles.map(({ id }) => id))
      for (const [key, volts] of expected) {
        const [node = ''] = key.split(' ')
        if (!poles.has(node)) continue
        const difference = subtract(volts, found.get(key)!) as Complex
        expect(sizeOf(difference) / model.nominalV.get(node)!, key).toBeLessThan(1e-6)
      }
    })
  })

  it('loses no current at any pole: what arrives is drawn or goes on, within 1e-6', () => {
    forRandomFeeders(100, (wide) => {
      const feeder = withOneDeviceInFront(wide)
      expect(flowBalance(nodalModel(feeder), solved(feeder)).worstMismatch).toBeLessThan(1e-6)
    })
  })

  it('gives at the source what loads take and lines lose, within 1e-6', () => {
    forRandomFeeders(100, (wide) => {
      const feeder = withOneDeviceInFront(wide)
      const { totals, spans } = solved(feeder)
      const { input, drawn } = flowBalance(nodalModel(feeder), solved(feeder))
      const size = Math.max(1, sizeOf(input))
      expect(Math.abs(totals.inputKw - input.re) / size).toBeLessThan(1e-6)
      expect(Math.abs(totals.inputKvar - input.im) / size).toBeLessThan(1e-6)
      expect(Math.abs(totals.loadKw - drawn.re) / size).toBeLessThan(1e-6)
      expect(Math.abs(totals.loadKvar - drawn.im) / size).toBeLessThan(1e-6)
      expect(Math.abs(input.re - drawn.re - totals.lossKw) / size).toBeLessThan(1e-6)
      expect(Math.abs(input.im - drawn.im - totals.lossKvar) / size).toBeLessThan(1e-6)
      if (feeder.header.source.impedance) return
      const spanLossKw = spans.reduce((sum, { lossKw }) => sum + lossKw, 0)
      expect(Math.abs(spanLossKw - totals.lossKw) / size).toBeLessThan(1e-6)
    })
  })

  it('runs past a bypassed bank as if the bank were not there, and lists no taps of it', () => {
    forRandomFeeders(100, (feeder) => {
      const bare = withoutBypassedBanks(feeder)
      const inService = bare.equipment.filter(({ kind }) => kind === 'regulator')
      const found = solved(feeder)
      expect(found.nodes).toEqual(solved(bare).nodes)
      expect(found.spans).toEqual(solved(bare).spans)
      expect(found.regulators.map(({ id }) => id).sort()).toEqual(
        inService.map(({ id }) => id).sort(),
      )
    })
  })

  it('does not depend on what the phases are called', () => {
    forRandomFeeders(60, (feeder) => {
      const before = solved(feeder)
      const after = perUnit(solved(withPhasesRenamed(feeder)))
      for (const { id, phases } of before.nodes) {
        for (const phase of PHASES) {
          const at = phases[phase]
          if (!at) continue
          const renamed = after.get(`${id} ${NEXT[phase]}`)!
          expect(Math.abs(renamed.pu - at.pu)).toBeLessThan(1e-8)
          const turnedDeg = ((renamed.angleDeg - at.angleDeg + 540) % 360) - 180
          expect(Math.abs(turnedDeg)).toBeLessThan(1e-5)
        }
      }
    })
  })

  it('is the same per unit when voltages double and powers grow fourfold', () => {
    forRandomFeeders(60, (feeder) => {
      const before = solved(feeder)
      const after = solved(withVoltagesScaled(feeder, 2))
      const scaled = perUnit(after)
      for (const [key, { pu }] of perUnit(before)) {
        expect(Math.abs(scaled.get(key)!.pu - pu)).toBeLessThan(1e-8)
      }
      expect(after.totals.lossKw).toBeCloseTo(4 * before.totals.lossKw, 4)
    })
  })

  it('does not depend on the order of the rows in the layers', () => {
    forRandomFeeders(60, (feeder) => {
      const reversed = perUnit(solved(withRowsReversed(feeder)))
      for (const [key, { pu }] of perUnit(solved(feeder))) {
        expect(Math.abs(reversed.get(key)!.pu - pu)).toBeLessThan(1e-8)
      }
    })
  })
})
