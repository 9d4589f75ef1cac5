import { describe, expect, it } from 'vitest'
import { Feeder } from '#domain/feeder/feeder.ts'
import { traceFeeder } from '#domain/network/trace-feeder.ts'
import { compassWord } from '#domain/units/compass-word.ts'
import { lineNeighbours } from '../../../web/jobs/places/line-neighbours.ts'
import { accessToPole } from '../../../web/jobs/places/nearest-access.ts'

const span = (id: string, from: string, to: string, more: object = {}) => ({
  id,
  from,
  to,
  path: [
    [-107, 43],
    [-107, 43.001],
  ],
  phases: 'ABC',
  ...more,
})

/** P1 feeds P2, which feeds P3 and P4; the span to P4 is recorded backwards; an open tie joins P3 and P5. */
const feeder = Feeder.parse({
  header: {
    format: 'crossarm-feeder-1',
    id: 'T',
    name: 'Test feeder',
    nominalKv: 24.9,
    source: { pole: 'P1' },
    lineTypes: [],
    cases: [{ id: 'peak', name: 'Peak' }],
  },
  poles: ['P1', 'P2', 'P3', 'P4', 'P5'].map((id) => ({ id, at: [-107, 43] })),
  spans: [
    span('S1', 'P1', 'P2'),
    span('S2', 'P2', 'P3'),
    span('S3', 'P4', 'P2', { phases: 'B' }),
    span('S4', 'P3', 'P5', { isNormallyOpen: true }),
  ],
  equipment: [],
  loads: [],
  nests: [],
  habitat: [],
  incidents: [],
  protections: [],
  access: [],
  keepOuts: [],
})

describe('neighbours along the line', () => {
  const trace = traceFeeder(feeder)
  const of = (poleId: string) => lineNeighbours(feeder, trace, poleId)

  it('are told apart as toward the source and away from it', () => {
    expect(of('P2').up).toEqual({ poleId: 'P1', spanId: 'S1', phases: 'ABC' })
    expect(
      of('P2')
        .down.map(({ poleId }) => poleId)
        .sort(),
    ).toEqual(['P3', 'P4'])
  })

  it('follow the power, not the way a span was recorded', () => {
    expect(of('P4').up).toEqual({ poleId: 'P2', spanId: 'S3', phases: 'B' })
    expect(of('P4').down).toEqual([])
  })

  it('name the pole across an open point apart', () => {
    expect(of('P3').down).toEqual([])
    expect(of('P3').acrossOpen.map(({ poleId }) => poleId)).toEqual(['P5'])
    expect(of('P5').up).toBeNull()
  })

  it('have nothing up the line at the source', () => {
    expect(of('P1').up).toBeNull()
  })
})

describe('access to a pole', () => {
  it('is the nearest point of the nearest road or track, and the nearest gate', () => {
    const found = accessToPole(
      [-107, 43],
      [
        {
          id: 'R1',
          kind: 'road',
          path: [
            [-107.005, 43.001],
            [-106.995, 43.001],
          ],
        },
        {
          id: 'R2',
          kind: 'track',
          path: [
            [-107.005, 43.01],
            [-106.995, 43.01],
          ],
        },
        {
          id: 'G1',
          kind: 'gate',
          path: [
            [-107.002, 43],
            [-107.001, 43],
          ],
        },
      ],
    )
    expect(found.road?.access.id).toBe('R1')
    // A thousandth of a degree of latitude on the mean earth (6371.0088 km) is 111.2 m.
    expect(found.road?.way.distanceM).toBeCloseTo(111.2, 0)
    expect(compassWord(found.road?.way.bearingDeg ?? 180)).toBe('north')
    expect(found.gate?.access.id).toBe('G1')
    expect(found.gate?.way.bearingDeg).toBeCloseTo(270, 0)
  })

  it('is missing where the feeder has no roads', () => {
    expect(accessToPole([-107, 43], [])).toEqual({ road: null, gate: null })
  })
})
