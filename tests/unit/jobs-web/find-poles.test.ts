import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Position } from '#domain/feeder/geometry.ts'
import { Pole } from '#domain/feeder/pole.ts'
import { findPolesById, findPolesNear } from '../../../web/jobs/places/find-poles.ts'

const pole = (id: string, at: Position = [-107, 43]): Pole => Pole.parse({ id, at })
const ids = (poles: Pole[], scrap: string, from: Position | null = null): string[] =>
  findPolesById(poles, scrap, from).map((found) => found.pole.id)

describe('a scrap of a pole id', () => {
  const poles = ['2-418', '24-18', '418', '4180', '2-4180', 'W-7'].map((id) => pole(id))

  it('finds 2-418 by 418, after the exact id and ids that begin with it', () => {
    expect(ids(poles, '418')).toEqual(['418', '4180', '2-418', '2-4180', '24-18'])
  })

  it('does not care about separators, spaces or case', () => {
    expect(ids(poles, 'w7')).toEqual(['W-7'])
    expect(ids(poles, '2 418')[0]).toBe('2-418')
  })

  it('finds nothing for nothing typed and for an id that is not there', () => {
    expect(ids(poles, '  - ')).toEqual([])
    expect(ids(poles, '999')).toEqual([])
  })

  it('puts the nearer pole first among equal matches', () => {
    const two = [pole('1-418', [-107, 43.5]), pole('2-418', [-107, 43.1])]
    expect(ids(two, '418')).toEqual(['1-418', '2-418'])
    expect(ids(two, '418', [-107, 43])).toEqual(['2-418', '1-418'])
  })

  it('always finds a pole by any piece of its id', () => {
    const anyId = fc.stringMatching(/^[A-Z0-9][A-Z0-9-]{0,8}[A-Z0-9]$/)
    fc.assert(
      fc.property(anyId, fc.nat(), fc.nat(), (id, start, length) => {
        const from = start % id.length
        const scrap = id.slice(from, from + 1 + (length % (id.length - from)))
        fc.pre(/[A-Z0-9]/.test(scrap))
        expect(ids([pole(id)], scrap)).toEqual([id])
      }),
    )
  })
})

describe('poles near a position', () => {
  it('come nearest first and only within reach', () => {
    const poles = [pole('far', [-107, 43.2]), pole('b', [-107, 43.002]), pole('a', [-107, 43.001])]
    const found = findPolesNear(poles, [-107, 43], 1_000)
    expect(found.map((near) => near.pole.id)).toEqual(['a', 'b'])
    expect(found[0]?.way?.bearingDeg).toBeCloseTo(0, 6)
  })
})
