import { describe, expect, it } from 'vitest'
import type { Position } from '#domain/feeder/geometry.ts'
import { Pole } from '#domain/feeder/pole.ts'
import { type SearchedFeeder, searchPoles } from '../../../web/crew/crew-search.ts'
import { distanceText } from '../../../web/jobs/places/distance-text.ts'

const pole = (id: string, at: Position): Pole => Pole.parse({ id, at })
const feeder = (id: string, poles: Pole[]): SearchedFeeder => ({ header: { id, name: id }, poles })
const windmill = feeder('windmill', [
  pole('W-1', [-107, 43]),
  pole('W-2', [-107, 43.001]),
  pole('13TCJ11', [-107, 43.002]),
])
const creek = feeder('creek', [pole('C-1', [-107, 43.2]), pole('C-2', [-107, 43.0021])])

describe('the search box', () => {
  it('left empty lists what is near the device, and nothing where that is unknown', () => {
    expect(searchPoles([windmill], ' ', [-107, 43.0009]).poles[0]?.pole.id).toBe('W-2')
    expect(searchPoles([windmill], '', null).poles).toEqual([])
  })

  it('takes text for a pole id before it takes it for coordinates', () => {
    const answer = searchPoles([windmill], '13TCJ11', null)
    expect(answer.poles.map((found) => found.pole.id)).toEqual(['13TCJ11'])
    expect(answer.typedAt).toBeNull()
  })

  it('measures from typed coordinates, not from the device', () => {
    const answer = searchPoles([windmill], '43.0000 -107.0000', [-100, 40])
    expect(answer.typedAt).toEqual([-107, 43])
    expect(answer.poles[0]?.pole.id).toBe('W-1')
    expect(answer.poles[0]?.way?.distanceM).toBeCloseTo(0, 6)
  })

  it('says how wide the square of a short grid reference is', () => {
    const answer = searchPoles(
      [feeder('x', [pole('X', [-107.338, 43.94])])],
      '13T CJ 123 678',
      null,
    )
    expect(answer.heading).toContain('a square 100 m wide')
  })
})

describe('a search in several feeders', () => {
  const idsOf = (text: string, device: Position | null) =>
    searchPoles([windmill, creek], text, device).poles.map(({ pole: { id } }) => id)

  it('lists equal matches of the first feeder first where nobody knows where the device is', () => {
    expect(idsOf('2', null)).toEqual(['W-2', 'C-2'])
    expect(idsOf('1', null).slice(0, 3)).toEqual(['13TCJ11', 'W-1', 'C-1'])
  })

  it('lists the nearer of equal matches first where it is known, and says whose it is', () => {
    expect(idsOf('2', [-107, 43.003])).toEqual(['C-2', 'W-2'])
    const [first] = searchPoles([windmill, creek], '', [-107, 43.003]).poles
    expect(first?.feeder.id).toBe('creek')
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
