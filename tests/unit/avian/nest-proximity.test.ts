import { describe, expect, it } from 'vitest'
import { NEAR_NEST_M, nearbyNests } from '#domain/avian/nest-proximity.ts'
import { nestAt } from './bird-feeder.ts'

/** One minute of latitude on the mean earth is 1853.2 m (6371.0088 km × π / 10800). */
const METRES_PER_MINUTE = (6_371_008.8 * Math.PI) / 10_800

describe('nests near a pole', () => {
  it('are measured over the ground', () => {
    const [found] = nearbyNests([-107, 43], [nestAt([-107, 43 + 0.25 / 60])], 3)
    expect(found?.distanceM).toBeCloseTo(METRES_PER_MINUTE / 4, 3)
  })

  it('count as near within half a mile, and come nearest first', () => {
    const nests = [
      nestAt([-107, 43.005], { id: 'far' }),
      nestAt([-107, 43.001], { id: 'close' }),
      nestAt([-107, 43.02], { id: 'beyond' }),
    ]
    expect(nearbyNests([-107, 43], nests, 3).map(({ nest }) => nest.id)).toEqual(['close', 'far'])
    expect(NEAR_NEST_M).toBeCloseTo(804.672, 6)
  })

  it('beyond half a mile still count where their own buffer reaches the pole', () => {
    const wide = nestAt([-107, 43.01], { bufferM: 1609.344 })
    expect(nearbyNests([-107, 43], [wide], 3)[0]?.isInBuffer).toBe(true)
  })

  it('inside half a mile but outside a narrow buffer say so', () => {
    const narrow = nestAt([-107, 43.005], { bufferM: 201.168 })
    expect(nearbyNests([-107, 43], [narrow], 3)[0]?.isInBuffer).toBe(false)
  })

  it('are in season across New Year (golden eagle 15 December to 15 July, Colorado list)', () => {
    const inMonth = (month: number) =>
      nearbyNests([-107, 43], [nestAt([-107, 43])], month)[0]?.isInSeason
    expect([12, 1, 7].map(inMonth)).toEqual([true, true, true])
    expect([8, 11].map(inMonth)).toEqual([false, false])
  })
})
