import { describe, expect, it } from 'vitest'
import { Pole } from '#domain/feeder/pole.ts'
import { strengthReasons } from '#domain/siting/pole-strength.ts'
import { SiteRequest } from '#domain/siting/site-request.ts'

const pole = (heightM: number) =>
  Pole.parse({ id: 'P1', at: [-107, 43.5], heightM, poleClass: '3' })

describe('the shortest pole that may carry a bank', () => {
  it('is a 40 ft pole, however its length was rounded to metres', () => {
    const request = SiteRequest.parse({ leastPoleHeightM: 40 * 0.3048 })
    expect(strengthReasons(pole(12.19), request)).toEqual([])
    expect(strengthReasons(pole(12.2), request)).toEqual([])
  })

  it('leaves out a 35 ft pole and says both lengths', () => {
    expect(strengthReasons(pole(10.67), SiteRequest.parse({}))).toEqual([
      'The pole is 35 ft (10.7 m) long; a bank needs at least 40 ft (12.2 m).',
    ])
  })
})
