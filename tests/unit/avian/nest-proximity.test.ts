import { describe, expect, it } from 'vitest'
import { BirdSettings } from '#domain/avian/bird-settings.ts'
import { NEAR_NEST_M, nearbyNests, polesNearNestsInUse } from '#domain/avian/nest-proximity.ts'
import { nestAt } from './bird-feeder.ts'

/** One minute of latitude on the mean earth is 1853.2 m (6371.0088 km × π / 10800). */
const METRES_PER_MINUTE = (6_371_008.8 * Math.PI) / 10_800

describe('nests near a pole', () => {
  it('are measured over the ground', () => {
    const [found] = nearbyNests([-107, 43], [nestAt([-107, 43 + 0.25 / 60])], '2027-03-10')
    expect(found?.distanceM).toBeCloseTo(METRES_PER_MINUTE / 4, 3)
  })

  it('count as near within half a mile, and come nearest first', () => {
    const nests = [
      nestAt([-107, 43.005], { id: 'far' }),
      nestAt([-107, 43.001], { id: 'close' }),
      nestAt([-107, 43.02], { id: 'beyond' }),
    ]
    expect(nearbyNests([-107, 43], nests, '2027-03-10').map(({ nest }) => nest.id)).toEqual([
      'close',
      'far',
    ])
    expect(NEAR_NEST_M).toBeCloseTo(804.672, 6)
  })

  it('beyond half a mile still count where their own buffer reaches the pole', () => {
    const wide = nestAt([-107, 43.01], { bufferM: 1609.344 })
    expect(nearbyNests([-107, 43], [wide], '2027-03-10')[0]?.isInBuffer).toBe(true)
  })

  it('inside half a mile but outside a narrow buffer say so', () => {
    const narrow = nestAt([-107, 43.005], { bufferM: 201.168 })
    expect(nearbyNests([-107, 43], [narrow], '2027-03-10')[0]?.isInBuffer).toBe(false)
  })

  it('are in season across New Year (golden eagle 15 December to 15 July, Colorado list)', () => {
    const onDay = (day: string) => nearbyNests([-107, 43], [nestAt([-107, 43])], day)[0]?.isInSeason
    expect(['2026-12-15', '2027-01-10', '2027-07-15'].map(onDay)).toEqual([true, true, true])
    expect(['2027-07-16', '2026-12-14'].map(onDay)).toEqual([false, false])
  })

  it('go by the buffer set in force where there is one', () => {
    const settings = BirdSettings.parse({ bufferSetId: 'utah-2002' })
    const [found] = nearbyNests([-107, 43], [nestAt([-107, 43])], '2026-12-20', settings)
    expect(found?.isInSeason).toBe(false)
  })

  it('tell which poles stand within half a mile of one in use', () => {
    const poles = [
      { id: 'P-1', at: [-107, 43] as const },
      { id: 'P-2', at: [-107, 43.02] as const },
    ].map(({ id, at }) => ({ id, at: [...at] as [number, number] }))
    const nests = [nestAt([-107, 43.005]), nestAt([-107, 43.02], { id: 'N-2', status: 'unknown' })]
    expect([...polesNearNestsInUse(poles, nests)]).toEqual(['P-1'])
  })
})
