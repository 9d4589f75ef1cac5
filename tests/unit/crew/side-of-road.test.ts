import { describe, expect, it } from 'vitest'
import type { Position } from '#domain/feeder/geometry.ts'
import type { Access } from '#domain/feeder/land.ts'
import { sideInWords, sideOfRoad } from '../../../web/crew/side-of-road.ts'
import { accessToPole } from '../../../web/jobs/places/nearest-access.ts'

const road = (path: Position[], kind: Access['kind'] = 'road'): Access => ({ id: 'r', kind, path })
const EASTWARD = road([
  [-107, 43],
  [-106.99, 43],
])

function side(pole: Position, access: Access) {
  const found = accessToPole(pole, [access]).road
  return found && sideOfRoad(pole, access, found.at)
}

describe('the side of the road', () => {
  it('is told by the compass and by the hand of whoever drives along it', () => {
    expect(side([-106.995, 43.0002], EASTWARD)).toEqual({
      compass: 'north',
      driving: 'east',
      hand: 'left',
    })
    expect(side([-106.995, 42.9998], EASTWARD)).toMatchObject({ compass: 'south', hand: 'right' })
  })

  it('is the same pole on the other hand where the road is drawn the other way', () => {
    const westward = road(EASTWARD.path.toReversed())
    expect(side([-106.995, 43.0002], westward)).toEqual({
      compass: 'north',
      driving: 'west',
      hand: 'right',
    })
  })

  it('goes by the piece of a bent road that is nearest', () => {
    const bent = road([
      [-107, 43],
      [-106.99, 43],
      [-106.99, 43.01],
    ])
    expect(side([-106.9898, 43.005], bent)).toEqual({
      compass: 'east',
      driving: 'north',
      hand: 'right',
    })
  })

  it('is not told of a pole in the road, far from it, past its end, or beside a gate', () => {
    expect(side([-106.995, 43.00001], EASTWARD)).toBeNull()
    expect(side([-106.995, 43.01], EASTWARD)).toBeNull()
    expect(side([-106.989, 43.0001], EASTWARD)).toBeNull()
    expect(sideOfRoad([-106.995, 43.0002], road(EASTWARD.path, 'gate'), [-106.995, 43])).toBeNull()
  })

  it('reads as a sentence', () => {
    expect(sideInWords({ compass: 'north', driving: 'east', hand: 'left' }, 'Cinder Road')).toBe(
      'North side of Cinder Road: on the left hand driving east.',
    )
  })
})
