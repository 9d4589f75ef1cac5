import { expect, it } from 'vitest'
import { searchPlaces } from '../../../web/planner/search-places.ts'
import { modelFeeder } from '../../../web/state/feeder-model.ts'
import { smallFeeder } from '../../support/small-feeder.ts'

const feeder = smallFeeder({ poles: 14 })
const named = feeder.loads.map((load, index) =>
  index === 0 ? { ...load, name: 'Quillback pump' } : load,
)
const model = modelFeeder({ ...feeder, loads: named })
const polesFor = (text: string) => searchPlaces(model, text, 5).map(({ pole }) => pole)

it('finds a pole by its whole number before those that only begin with it', () => {
  expect(polesFor('P1')).toEqual(['P1', 'P10', 'P11', 'P12', 'P13'])
})

it('finds any scrap, in any case, without hyphens and blanks', () => {
  expect(polesFor('13')).toEqual(['P13'])
  expect(polesFor(' p-1 3 ')).toEqual(['P13'])
})

it('finds who is served and says why', () => {
  expect(searchPlaces(model, 'quill', 5)).toEqual([{ pole: 'P2', because: 'Quillback pump' }])
})

it('finds nothing for nothing and for what is not there', () => {
  expect(polesFor('  ')).toEqual([])
  expect(polesFor('zzz')).toEqual([])
})
