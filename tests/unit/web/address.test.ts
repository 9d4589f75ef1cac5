import { expect, it } from 'vitest'
import { addressOfSelection, selectionOfAddress } from '../../../web/state/address.ts'

it('brings back the same selection from the address it gave', () => {
  const given =
    '?feeder=skillet&phase=C&units=metric&person=crew&pole=S-245&moved=S-250&paper=labels'
  const selection = selectionOfAddress(given)
  expect(selection).toMatchObject({ phase: 'C', units: 'metric', person: 'crew', pole: 'S-245' })
  expect(selectionOfAddress(addressOfSelection(selection))).toEqual(selection)
})

it('leaves defaults out of the address and keeps what is not its own', () => {
  const selection = selectionOfAddress('?feeder=a&units=us&person=planner')
  expect(addressOfSelection(selection, '?expose=map&pole=gone')).toBe('?expose=map&feeder=a')
})

it('takes the default where an address names what there is not', () => {
  const selection = selectionOfAddress('?phase=D&units=furlongs&person=boss&taps=glued&paper=stone')
  expect(selection).toMatchObject({
    phase: 'worst',
    units: 'us',
    person: 'planner',
    taps: 'controlled',
    paper: null,
  })
})
