import { describe, expect, it } from 'vitest'
import { itemUses } from '../../../../server/domain/avian/measures/standing-items.ts'
import { item, transformerPole } from './made-pole-top.ts'

const THREE = transformerPole(['A', 'B', 'C'])

describe('what an item on a pole covers', () => {
  it('is told from its words alone: kind and phase', () => {
    const { standing } = itemUses(THREE, [item('bushing cover, A phase')])
    expect(standing).toEqual([{ kind: 'bushing cover', partIds: ['t-A-bushing'] }])
  })

  it('is every phase where the words name a number of phases or none', () => {
    const { standing } = itemUses(THREE, [item('cutout cover, 3 phases'), item('arrester cap')])
    expect(standing).toEqual([
      { kind: 'cutout cover', partIds: ['t-A-cutout', 't-B-cutout', 't-C-cutout'] },
      { kind: 'arrester cap', partIds: ['t-A-arrester', 't-B-arrester', 't-C-arrester'] },
    ])
  })

  it.each([
    ['insulated jumper to transformer, B phase', ['t-B-lead']],
    ['insulated jumper, phases A and C', ['t-A-lead', 't-C-lead']],
    ['insulated jumper on phase C', ['t-C-lead']],
    ['insulated jumper, BC phases', ['t-B-lead', 't-C-lead']],
    ['insulated jumper, A, B and C phases', ['t-A-lead', 't-B-lead', 't-C-lead']],
  ])('reads phases however a crew writes them: %s', (what, partIds) => {
    expect(itemUses(THREE, [item(what)]).standing).toEqual([{ kind: 'insulated jumper', partIds }])
  })

  it('is not at the transformer where the words name the regulator', () => {
    expect(itemUses(THREE, [item('bushing cover on the regulator')]).standing).toEqual([])
  })

  it('is what the record names part by part, as far as it is on the pole', () => {
    const named = item('covers', { measure: 'bushing cover', partIds: ['t-B-bushing', 'gone'] })
    expect(itemUses(THREE, [named]).standing).toEqual([
      { kind: 'bushing cover', partIds: ['t-B-bushing'] },
    ])
  })

  it('is nothing where the words say nothing that is on the pole', () => {
    const words = ['something grey', 'ground-wire moulding', 'dead-end cover']
    expect(
      itemUses(
        THREE,
        words.map((what) => item(what)),
      ).standing,
    ).toEqual([])
  })

  it('does not count for another pole', () => {
    expect(itemUses(THREE, [item('cutout cover', { pole: 'P-2' })]).standing).toEqual([])
  })
})

describe('whether an item stands', () => {
  it('stands where it is on and was found sound, or nobody has looked yet', () => {
    const items = [item('bushing cover'), item('cutout cover', { condition: 'sound' })]
    expect(itemUses(THREE, items).standing).toHaveLength(2)
  })

  it.each(['loose', 'slipped', 'tracked', 'missing'] as const)(
    'counts as failed once it was found %s, although it is still on',
    (condition) => {
      const { standing, failed } = itemUses(THREE, [item('cutout cover', { condition })])
      expect([standing.length, failed.length]).toEqual([0, 1])
    },
  )

  it('counts as failed where its state says so, and as nothing where it is planned or removed', () => {
    const states = (['failed', 'planned', 'removed'] as const).map((state) =>
      itemUses(THREE, [item('cutout cover', { state })]),
    )
    expect(states.map(({ standing, failed }) => [standing.length, failed.length])).toEqual([
      [0, 1],
      [0, 0],
      [0, 0],
    ])
  })
})
