import { describe, expect, it } from 'vitest'
import { modelFeeder } from '../../../web/state/feeder-model.ts'
import { mainPath } from '../../../web/state/main-path.ts'
import { walkLine } from '../../../web/state/walk-line.ts'
import { feederSketch, plainLineType } from '../../support/feeder-sketch.ts'

const line = plainLineType('line', 0.5, 0.7)
const span = (from: string, to: string, phases: 'ABC' | 'A', lengthM: number) => ({
  id: `${from}-${to}`,
  from,
  to,
  phases,
  lineType: line.id,
  lengthM,
})

/** A trunk 1–2–3–4, a long single-phase lateral from 2, and a short three-phase one from 3. */
const model = modelFeeder(
  feederSketch({
    lineTypes: [line],
    spans: [
      span('1', '2', 'ABC', 100),
      span('2', 'L1', 'A', 500),
      span('L1', 'L2', 'A', 500),
      span('2', '3', 'ABC', 100),
      span('3', 'T', 'ABC', 50),
      span('3', '4', 'ABC', 100),
    ],
  }),
)

describe('the look-ups of a feeder', () => {
  it('measure the way from the source', () => {
    expect(model.distanceM.get('4')).toBe(300)
    expect(model.distanceM.get('L2')).toBe(1100)
  })

  it('put the branch with the longest way first', () => {
    expect(model.downstreamOf.get('2')).toEqual(['L1', '3'])
    expect(model.downstreamOf.get('3')).toEqual(['4', 'T'])
  })
})

describe('the main line', () => {
  it('follows the poles that all phases reach, not the longest single-phase lateral', () => {
    expect(mainPath(model)).toEqual(['1', '2', '3', '4'])
  })
})

describe('walking along the line', () => {
  it('goes back to the source and stops there', () => {
    expect(walkLine(model, '4', 'source')).toBe('3')
    expect(walkLine(model, '1', 'source')).toBeNull()
  })

  it('goes onward along the longest way and stops at the end', () => {
    expect(walkLine(model, '2', 'onward')).toBe('L1')
    expect(walkLine(model, 'L2', 'onward')).toBeNull()
  })

  it('changes to the other branch and comes round again', () => {
    expect(walkLine(model, 'L1', 'next-branch')).toBe('3')
    expect(walkLine(model, '3', 'next-branch')).toBe('L1')
    expect(walkLine(model, '3', 'last-branch')).toBe('L1')
    expect(walkLine(model, '2', 'next-branch')).toBeNull()
  })
})
