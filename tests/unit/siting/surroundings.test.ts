import { describe, expect, test } from 'vitest'
import { Nest } from '#domain/feeder/birds.ts'
import { findAccess } from '#domain/siting/access-distance.ts'
import { lineAngleDeg } from '#domain/siting/line-angle.ts'
import { nestVerdict } from '#domain/siting/nest-buffers.ts'
import { placeAt, sampleFeeder } from './sample-feeder.ts'

describe('Distance to access', () => {
  const road = { id: 'r1', kind: 'road' as const, path: [placeAt(-500, 100), placeAt(500, 100)] }

  test('is measured square to the nearest road', () => {
    expect(findAccess([road]).distanceM(placeAt(40, 340))).toBeCloseTo(240, 0)
  })

  test('a road far beyond the first search box is still found', () => {
    expect(findAccess([road]).distanceM(placeAt(0, 30_100))).toBeCloseTo(30_000, -1)
  })

  test('a long road past the pole counts although its ends are far away', () => {
    const long = { ...road, path: [placeAt(-50_000, 100), placeAt(50_000, 100)] }
    expect(findAccess([long]).distanceM(placeAt(0, 0))).toBeCloseTo(100, 0)
  })

  test('a gate alone is no access, and no access recorded gives no distance', () => {
    expect(findAccess([{ ...road, kind: 'gate' as const }]).distanceM(placeAt(0, 0))).toBeNull()
    expect(findAccess([]).distanceM(placeAt(0, 0))).toBeNull()
  })
})

describe('Turn of the line at a pole', () => {
  const turnTo = (east: number, north: number) => {
    const { spans } = sampleFeeder({
      poles: [
        { id: 'a', at: placeAt(0, 0) },
        { id: 'b', at: placeAt(100, 0) },
        { id: 'c', at: placeAt(east, north) },
      ],
      spans: [
        { from: 'a', to: 'b' },
        { from: 'b', to: 'c' },
      ],
    })
    const [incoming, outgoing] = spans
    return incoming && outgoing ? lineAngleDeg(incoming, outgoing, 'b') : null
  }

  test('straight through is 0°, a corner is 90° to either side', () => {
    expect(turnTo(200, 0)).toBeCloseTo(0, 1)
    expect(turnTo(100, 100)).toBeCloseTo(90, 1)
    expect(turnTo(100, -100)).toBeCloseTo(90, 1)
    expect(turnTo(200, 100)).toBeCloseTo(45, 1)
  })

  test('a span recorded the other way round turns as much', () => {
    const { spans } = sampleFeeder({
      poles: [
        { id: 'a', at: placeAt(0, 0) },
        { id: 'b', at: placeAt(100, 0) },
        { id: 'c', at: placeAt(200, 100) },
      ],
      spans: [
        { from: 'b', to: 'a' },
        { from: 'c', to: 'b' },
      ],
    })
    const [incoming, outgoing] = spans
    expect(incoming && outgoing && lineAngleDeg(incoming, outgoing, 'b')).toBeCloseTo(45, 1)
  })
})

describe('Nest buffers', () => {
  const nest = Nest.parse({
    id: 'n1',
    at: placeAt(0, 300),
    species: 'golden eagle',
    status: 'in use',
    bufferM: 800,
    seasonFrom: '12-15',
    seasonTo: '07-15',
  })

  test('in season the pole is out, with the distance, the buffer and the dates', () => {
    expect(nestVerdict([nest], placeAt(0, 0), 1).reasons).toEqual([
      '984 ft (300 m) from golden eagle nest to the north (record n1), buffer 2625 ft (800 m), season 15 Dec to 15 Jul; Jan lies in it.',
    ])
  })

  test('out of season the pole stays in, with a caution', () => {
    const verdict = nestVerdict([nest], placeAt(0, 0), 9)
    expect(verdict.reasons).toEqual([])
    expect(verdict.cautions[0]).toContain('ask the agency')
  })

  test('without a month any season counts, and the reason says so', () => {
    expect(nestVerdict([nest], placeAt(0, 0)).reasons[0]).toContain('no work month is chosen')
  })

  test('beyond the buffer nothing is said', () => {
    expect(nestVerdict([nest], placeAt(0, 1200), 1)).toEqual({ reasons: [], cautions: [] })
  })

  test('a nest recorded as not in use is a caution only', () => {
    const verdict = nestVerdict([{ ...nest, status: 'not in use' }], placeAt(0, 0), 1)
    expect(verdict.reasons).toEqual([])
    expect(verdict.cautions).toHaveLength(1)
  })
})
