import { beforeAll, describe, expect, it } from 'vitest'
import type { CaseSolution } from '#domain/electrical/solution.ts'
import { solveFeeder } from '#domain/electrical/solve-feeder.ts'
import type { Regulator } from '#domain/feeder/equipment.ts'
import { Feeder } from '#domain/feeder/feeder.ts'
import { PHASES } from '#domain/units/phases.ts'
import { demoFeeders } from '../../../geodata/demo/generate/demo-feeders.ts'

type Converged = Extract<CaseSolution, { status: 'converged' }>

function solved(
  feeder: Feeder,
  options: Parameters<typeof solveFeeder>[1],
): Map<string, Converged> {
  const solutions = solveFeeder(feeder, options)
  return new Map(
    solutions.map((solution) => {
      if (solution.status !== 'converged') throw new Error(`Not converged: ${solution.status}.`)
      return [solution.caseId, solution]
    }),
  )
}

/** Every node and phase of a case, volts on the 120 base. */
function voltsOf(solution: Converged | undefined): number[] {
  return (solution?.nodes ?? []).flatMap(({ phases }) =>
    PHASES.flatMap((phase) => phases[phase]?.volts120 ?? []),
  )
}

const lowest = (solution: Converged | undefined): number => Math.min(...voltsOf(solution))
const highest = (solution: Converged | undefined): number => Math.max(...voltsOf(solution))

/** Customers on poles where some phase is below 118 V. */
function customersLow(feeder: Feeder, solution: Converged | undefined): number {
  const low = new Set(
    (solution?.nodes ?? [])
      .filter(({ phases }) => PHASES.some((phase) => (phases[phase]?.volts120 ?? 120) < 118))
      .map(({ poleId }) => poleId),
  )
  return feeder.loads
    .filter(({ pole }) => pole !== undefined && low.has(pole))
    .reduce((sum, { customers }) => sum + customers, 0)
}

/** A bank at a trunk pole, held at full raise when the taps are fixed. */
function bankAt(feeder: Feeder, pole: string, ptRatio: number, tap: number): Regulator {
  const span = feeder.spans.find(({ from, phases }) => from === pole && phases === 'ABC')
  if (!span) throw new Error(`No three-phase span leaves ${pole}.`)
  return {
    id: 'trial',
    kind: 'regulator',
    pole,
    span: span.id,
    phases: 'ABC',
    windingType: 'B',
    connection: 'wye',
    ptRatio,
    ctPrimaryA: 200,
    bandCentreV: 124,
    bandwidthV: 2,
    rV: 0,
    xV: 0,
    delayS: 45,
    tapA: tap,
    tapB: tap,
    tapC: tap,
    maxRaise: 16,
    maxLower: 16,
  }
}

describe('the voltage problem of the demo', () => {
  let skillet: Feeder
  let thimble: Feeder
  beforeAll(() => {
    const [first, second] = demoFeeders().drafts.map((draft) => Feeder.parse(draft))
    if (!first || !second) throw new Error('Expected two feeders.')
    skillet = first
    thimble = second
  })

  it('has peak, light and solar-noon cases that together make a year', () => {
    expect(skillet.header.cases.map(({ id }) => id)).toEqual(['peak', 'light', 'solar-noon'])
    const hours = skillet.header.cases.reduce((sum, { hoursPerYear }) => sum + hoursPerYear, 0)
    expect(hours).toBe(8_760)
  })

  it('leaves the far end of the long feeder at 108 to 113 V at peak, dozens of customers low', () => {
    const cases = solved(skillet, { taps: 'controlled' })
    expect(lowest(cases.get('peak'))).toBeGreaterThan(108)
    expect(lowest(cases.get('peak'))).toBeLessThan(113)
    expect(customersLow(skillet, cases.get('peak'))).toBeGreaterThan(36)
  })

  it('leaves the far end of the short feeder at about 113 V at peak', () => {
    const cases = solved(thimble, { taps: 'controlled' })
    expect(lowest(cases.get('peak'))).toBeGreaterThan(112)
    expect(lowest(cases.get('peak'))).toBeLessThan(113.5)
    expect(customersLow(thimble, cases.get('peak'))).toBeGreaterThan(24)
  })

  it('stays within 126 V at night and at solar noon as it stands', () => {
    for (const feeder of [skillet, thimble]) {
      const cases = solved(feeder, { taps: 'controlled' })
      expect(highest(cases.get('light'))).toBeLessThanOrEqual(126)
      expect(highest(cases.get('solar-noon'))).toBeLessThanOrEqual(126)
    }
  })

  it('rises toward the solar plant at noon', () => {
    const noon = solved(skillet, { taps: 'controlled' }).get('solar-noon')
    const atSource = noon?.nodes.find(({ id }) => id === skillet.header.source.pole)
    expect(highest(noon)).toBeGreaterThan(atSource?.phases.A?.volts120 ?? 0)
  })

  it('cannot be cured by raising everything: a bank at full boost is far too high at night', () => {
    const boosted = solved(skillet, {
      taps: 'fixed',
      extraBanks: [bankAt(skillet, 'S-247', 120, 16)],
      caseIds: ['light'],
    })
    expect(highest(boosted.get('light'))).toBeGreaterThan(126)
  })

  it('is cured on the short feeder by one bank in the right place and not by one at its end', () => {
    const near = solved(thimble, {
      taps: 'controlled',
      extraBanks: [bankAt(thimble, 'T-100', 60, 0)],
    })
    const end = solved(thimble, {
      taps: 'controlled',
      extraBanks: [bankAt(thimble, 'T-230', 60, 0)],
    })
    expect(customersLow(thimble, near.get('peak'))).toBe(0)
    expect(customersLow(thimble, end.get('peak'))).toBeGreaterThan(24)
  })

  it('shows a worst phase without being lopsided', () => {
    const peak = solved(skillet, { taps: 'controlled' }).get('peak')
    const byPhase = PHASES.map((phase) =>
      Math.min(...(peak?.nodes ?? []).map(({ phases }) => phases[phase]?.volts120 ?? 999)),
    )
    const spread = Math.max(...byPhase) - Math.min(...byPhase)
    expect(spread).toBeGreaterThan(1)
    expect(spread).toBeLessThan(7)
  })
})
