import { describe, expect, it } from 'vitest'
import { birdFigures, birdPoles } from '#domain/avian/pole-urgency.ts'
import { urgencyReasons } from '#domain/avian/urgency-reasons.ts'
import type { Protection } from '#domain/feeder/birds.ts'
import { birdFeeder, nestAt, poleWith } from './bird-feeder.ts'

const SHORT = {
  phaseHorizontalIn: 44,
  phaseVerticalIn: 0,
  groundHorizontalIn: 60,
  groundVerticalIn: 0,
}
const SHORTER = { ...SHORT, phaseHorizontalIn: 20 }
const WIDE = { ...SHORT, phaseHorizontalIn: 60 }

const failedCover: Protection = {
  id: 'I-1',
  pole: 'P-2',
  kind: 'cover',
  what: 'bushing cover, A phase',
  state: 'failed',
  on: '2026-03-01',
}

const order = (feeder: ReturnType<typeof birdFeeder>, items: Protection[] = []) =>
  birdPoles(feeder, items, 4).map(({ pole }) => pole.id)

describe('the order of poles', () => {
  it('puts a pole an eagle can bridge before one that nobody measured, and that before a good one', () => {
    const feeder = birdFeeder([poleWith(WIDE, 'P-1'), poleWith({}, 'P-2'), poleWith(SHORT, 'P-3')])
    expect(order(feeder)).toEqual(['P-3', 'P-2', 'P-1'])
  })

  it('puts a pole where a bird was electrocuted before a tighter one', () => {
    const feeder = birdFeeder([poleWith(SHORTER, 'P-1'), poleWith(SHORT, 'P-2')], {
      incidents: [
        {
          id: 'D-1',
          at: [-107, 43],
          pole: 'P-2',
          foundOn: '2026-02-03',
          species: 'Golden eagle',
          cause: 'probable electrocution',
        },
      ],
    })
    expect(order(feeder)).toEqual(['P-2', 'P-1'])
    expect(urgencyReasons(birdPoles(feeder, [], 4)[0]!)).toContain(
      'Golden eagle found 2026-02-03: probable electrocution.',
    )
  })

  it('does not count a collision as an electrocution', () => {
    const feeder = birdFeeder([poleWith(SHORTER, 'P-1'), poleWith(SHORT, 'P-2')], {
      incidents: [
        {
          id: 'D-1',
          at: [-107, 43],
          pole: 'P-2',
          foundOn: '2026-02-03',
          species: 'Red-tailed hawk',
          cause: 'collision',
        },
      ],
    })
    expect(order(feeder)).toEqual(['P-1', 'P-2'])
  })

  it('puts a pole near a nest in use before one near an empty nest', () => {
    const feeder = birdFeeder(
      [poleWith(SHORTER, 'P-1', [-107, 43]), poleWith(SHORT, 'P-2', [-107, 43.1])],
      {
        nests: [
          nestAt([-107, 43], { id: 'N-1', status: 'not in use' }),
          nestAt([-107, 43.1], { id: 'N-2' }),
        ],
      },
    )
    expect(order(feeder)).toEqual(['P-2', 'P-1'])
  })

  it('puts a pole with a failed cover before a tighter one, and the reason names the cover', () => {
    const feeder = birdFeeder([poleWith(SHORTER, 'P-1'), poleWith(SHORT, 'P-2')])
    expect(order(feeder, [failedCover])).toEqual(['P-2', 'P-1'])
    expect(urgencyReasons(birdPoles(feeder, [failedCover], 4)[0]!)).toContain(
      'Failed: cover (bushing cover, A phase).',
    )
  })

  it('leaves out points that stand for no known pole', () => {
    const point = { ...poleWith(SHORT, 'P-1'), isAnonymousNode: true }
    expect(order(birdFeeder([point, poleWith(SHORT, 'P-2')]))).toEqual(['P-2'])
  })
})

describe('the figures of the first line', () => {
  it('count bridgeable poles, those near a nest in use, unmeasured poles and failed items', () => {
    const feeder = birdFeeder(
      [
        poleWith(SHORT, 'P-1', [-107, 43]),
        poleWith(SHORT, 'P-2', [-107, 43.1]),
        poleWith({}, 'P-3', [-107, 43.2]),
        poleWith(WIDE, 'P-4', [-107, 43.1]),
      ],
      { nests: [nestAt([-107, 43.1])] },
    )
    const on = { ...failedCover, id: 'I-2', state: 'on' as const }
    expect(birdFigures(birdPoles(feeder, [failedCover, on], 4))).toEqual({
      poles: 4,
      bridgeable: 2,
      bridgeableNearNest: 1,
      unknown: 1,
      failedItems: 1,
    })
  })
})
