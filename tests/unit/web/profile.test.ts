import { describe, expect, it } from 'vitest'
import { solveFeeder } from '#domain/electrical/solve-feeder.ts'
import { Regulator } from '#domain/feeder/equipment.ts'
import { profileSegments, voltsRange } from '../../../web/shell/profile/profile-lines.ts'
import { roundTicks } from '../../../web/shell/profile/round-ticks.ts'
import { convergedCase } from '../../../web/state/case-solutions.ts'
import { modelFeeder } from '../../../web/state/feeder-model.ts'
import { mainPath } from '../../../web/state/main-path.ts'
import { smallFeeder } from '../../support/small-feeder.ts'

const bank = Regulator.parse({
  kind: 'regulator',
  id: 'bank',
  pole: 'P3',
  span: 'S3',
  phases: 'ABC',
  windingType: 'A',
  ptRatio: 60,
  ctPrimaryA: 100,
  bandCentreV: 124,
  bandwidthV: 2,
  tapA: 8,
  tapB: 8,
  tapC: 8,
})

function segmentsWith(banks: readonly Regulator[]) {
  const plain = smallFeeder()
  const feeder = { ...plain, equipment: [...plain.equipment, ...banks] }
  const model = modelFeeder(feeder)
  const solution = convergedCase(solveFeeder(feeder, { taps: 'fixed' }), 'peak')
  if (!solution) throw new Error('The small feeder does not converge.')
  return { solution, segments: profileSegments(model, solution, mainPath(model)) }
}

describe('the voltage profile', () => {
  it('runs from the source to the end of each phase without a gap', () => {
    const { segments } = segmentsWith([])
    const onA = segments.filter(({ phase }) => phase === 'A')
    expect(onA).toHaveLength(4)
    expect(onA.every(({ isMain }) => isMain)).toBe(true)
    onA.slice(1).forEach(({ points }, index) => {
      expect(points[0]).toEqual(onA[index]?.points.at(-1))
    })
  })

  it('steps up at a regulator without going anywhere: 8 steps of 5/8 % are 5 %', () => {
    const { segments } = segmentsWith([bank])
    const stepped = segments.find(({ phase, points }) => phase === 'A' && points.length === 3)
    const [before, after] = stepped?.points ?? []
    expect(after?.distanceM).toBe(before?.distanceM)
    // IEEE C57.15: 32 steps over ±10 %, so 5/8 % each; type A adds them to the source side.
    expect((after?.volts120 ?? 0) / (before?.volts120 ?? 1)).toBeCloseTo(1.05, 3)
  })

  it('shows the limits and every voltage in its range', () => {
    const { segments } = segmentsWith([])
    const [least, most] = voltsRange(segments, { lowVolts120: 118, highVolts120: 126 })
    const all = segments.flatMap(({ points }) => points.map(({ volts120 }) => volts120))
    expect(least).toBeLessThan(Math.min(118, ...all))
    expect(most).toBeGreaterThan(Math.max(126, ...all))
  })
})

describe('ticks of an axis', () => {
  it('are round and not too many', () => {
    expect(roundTicks(0, 25.6, 6)).toEqual([0, 5, 10, 15, 20, 25])
    expect(roundTicks(111, 127, 6)).toEqual([115, 120, 125])
    expect(roundTicks(0, 0.03, 3)).toEqual([0, 0.01, 0.02, 0.03])
  })

  it('are one where there is no range', () => {
    expect(roundTicks(4, 4, 6)).toEqual([4])
  })
})
