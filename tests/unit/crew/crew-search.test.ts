import { describe, expect, it } from 'vitest'
import type { Position } from '#domain/feeder/geometry.ts'
import { Pole } from '#domain/feeder/pole.ts'
import { searchPoles } from '../../../web/crew/crew-search.ts'
import { distanceText } from '../../../web/jobs/places/distance-text.ts'

const pole = (id: string, at: Position): Pole => Pole.parse({ id, at })
const poles = [
  pole('W-1', [-107, 43]),
  pole('W-2', [-107, 43.001]),
  pole('13TCJ11', [-107, 43.002]),
]

describe('the search box', () => {
  it('left empty lists what is near the device, and nothing where that is unknown', () => {
    expect(searchPoles(poles, ' ', [-107, 43.0009]).poles[0]?.pole.id).toBe('W-2')
    expect(searchPoles(poles, '', null).poles).toEqual([])
  })

  it('takes text for a pole id before it takes it for coordinates', () => {
    const answer = searchPoles(poles, '13TCJ11', null)
    expect(answer.poles.map((found) => found.pole.id)).toEqual(['13TCJ11'])
    expect(answer.typedAt).toBeNull()
  })

  it('measures from typed coordinates, not from the device', () => {
    const answer = searchPoles(poles, '43.0000 -107.0000', [-100, 40])
    expect(answer.typedAt).toEqual([-107, 43])
    expect(answer.poles[0]?.pole.id).toBe('W-1')
    expect(answer.poles[0]?.way?.distanceM).toBeCloseTo(0, 6)
  })

  it('says how wide the square of a short grid reference is', () => {
    const answer = searchPoles([pole('X', [-107.338, 43.94])], '13T CJ 123 678', null)
    expect(answer.heading).toContain('a square 100 m wide')
  })
})

describe('distances', () => {
  it('are feet up to 1000 and miles beyond, or metres and kilometres', () => {
    expect(distanceText(30.48, 'us')).toBe('100 ft')
    expect(distanceText(1609.344, 'us')).toBe('1.00 mi')
    expect(distanceText(32_186.88, 'us')).toBe('20.0 mi')
    expect(distanceText(104.4, 'metric')).toBe('104 m')
    expect(distanceText(1_360, 'metric')).toBe('1.36 km')
  })
})
