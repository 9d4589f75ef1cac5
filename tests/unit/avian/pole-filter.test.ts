import { describe, expect, it } from 'vitest'
import { birdPoles } from '#domain/avian/pole-urgency.ts'
import { filterPoles } from '../../../web/coordinator/pole-filter.ts'
import { birdFeeder, poleWith } from './bird-feeder.ts'

const SHORT = {
  phaseHorizontalIn: 20,
  phaseVerticalIn: 0,
  groundHorizontalIn: 60,
  groundVerticalIn: 0,
}

describe('the list of poles', () => {
  const found = birdPoles(
    birdFeeder([poleWith(SHORT, 'P-10'), poleWith({}, 'P-1'), poleWith(SHORT, 'P-21')]),
    [],
    4,
  )
  const ids = (filter: Parameters<typeof filterPoles>[1], scrap: string) =>
    filterPoles(found, filter, scrap).map(({ pole }) => pole.id)

  it('keeps the order of urgency when nothing is typed', () => {
    expect(ids('all', '')).toEqual(['P-10', 'P-21', 'P-1'])
  })

  it('puts a pole of exactly the typed id first, then the others that hold it', () => {
    expect(ids('all', 'p1')).toEqual(['P-1', 'P-10'])
  })

  it('shows only poles of the chosen kind', () => {
    expect(ids('unknown', '')).toEqual(['P-1'])
    expect(ids('bridgeable', '1')).toEqual(['P-10', 'P-21'])
    expect(ids('failed', '')).toEqual([])
  })
})
