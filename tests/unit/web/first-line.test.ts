import { describe, expect, it } from 'vitest'
import { solveFeeder } from '#domain/electrical/solve-feeder.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import { firstLine } from '../../../web/planner/first-line.ts'
import { convergedCase } from '../../../web/state/case-solutions.ts'
import { modelFeeder } from '../../../web/state/feeder-model.ts'
import { smallFeeder } from '../../support/small-feeder.ts'

function lineOf(feeder: Feeder, caseId: string): string {
  const solution = convergedCase(solveFeeder(feeder, { taps: 'controlled' }), caseId)
  if (!solution) throw new Error(`Case ${caseId} does not converge.`)
  return firstLine(modelFeeder(feeder), solution)
}

function withLimits(feeder: Feeder, lowVolts120: number, highVolts120: number): Feeder {
  return { ...feeder, header: { ...feeder.header, limits: { lowVolts120, highVolts120 } } }
}

describe('the first line on the planner’s desk', () => {
  const feeder = smallFeeder()

  it('counts who is low, and says how low, where and on which phase', () => {
    const solution = convergedCase(solveFeeder(feeder, { taps: 'controlled' }), 'peak')
    const end = solution?.nodes.find(({ id }) => id === 'P5')?.phases
    const low = solution?.nodes.filter(({ phases }) => (phases.A?.volts120 ?? 0) < 118).length ?? 0
    const lowest = Math.min(...Object.values(end ?? {}).map(({ volts120 }) => volts120))
    const text = lineOf(feeder, 'peak')
    expect(low).toBeGreaterThan(0)
    expect(text).toContain(`${low * 10} customers below 118 V on Small feeder, “Peak”`)
    expect(text).toContain(`lowest ${lowest.toFixed(1)} V at pole P5`)
    expect(text).toMatch(/, [ABC] phase\.$/)
  })

  it('says so when everyone is inside', () => {
    expect(lineOf(withLimits(feeder, 90, 130), 'peak')).toMatch(
      /^Every customer is inside 90 to 130 V on Small feeder/,
    )
  })

  it('counts who is high too', () => {
    expect(lineOf(withLimits(feeder, 90, 119), 'light')).toMatch(/customers above 119 V.*highest/)
  })

  it('counts loads where no customers are recorded', () => {
    const loads = feeder.loads.map((load) => ({ ...load, customers: 0 }))
    expect(lineOf({ ...feeder, loads }, 'peak')).toMatch(/loads? below 118 V/)
  })
})
