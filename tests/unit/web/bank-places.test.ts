import { describe, expect, it } from 'vitest'
import { bankPlaces, nextPlace } from '../../../web/planner/bank-places.ts'
import { nearestPlace } from '../../../web/planner/nearest-place.ts'
import { modelFeeder } from '../../../web/state/feeder-model.ts'
import { feederSketch, plainLineType } from '../../support/feeder-sketch.ts'

const line = plainLineType('line', 0.5, 0.7)
const span = (from: string, to: string, phases: 'ABC' | 'A') => ({
  id: `${from}-${to}`,
  from,
  to,
  phases,
  lineType: line.id,
  lengthM: 100,
})
const model = modelFeeder(
  feederSketch({
    lineTypes: [line],
    spans: [span('1', '2', 'ABC'), span('2', 'L', 'A'), span('2', '3', 'ABC'), span('3', '4', 'A')],
  }),
)
const places = bankPlaces(model, 'ABC')

describe('where a bank may be dragged', () => {
  it('is every pole that sends all its phases onward', () => {
    expect([...places]).toEqual([
      ['1', '1-2'],
      ['2', '2-3'],
    ])
  })

  it('goes on to the next such pole in either direction and ends there', () => {
    expect(nextPlace(model, places, '2', -1)).toBe('1')
    expect(nextPlace(model, places, '1', 1)).toBe('2')
    expect(nextPlace(model, places, '2', 1)).toBeNull()
    expect(nextPlace(model, places, '1', -1)).toBeNull()
  })

  it('is the nearest such pole to the pointer', () => {
    expect(nearestPlace(model, places, [-106.9, 43])).toBe('2')
    expect(nearestPlace(model, new Map(), [-106.9, 43])).toBeNull()
  })
})
