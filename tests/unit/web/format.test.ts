import { describe, expect, it } from 'vitest'
import {
  counted,
  distance,
  inWords,
  length,
  listed,
  tapWords,
  usd,
} from '../../../web/state/format.ts'

/** The international mile is 1,609.344 m and the foot 0.3048 m, exactly (agreement of 1959). */
describe('figures in the units a person chose', () => {
  it('gives a way along the line in miles or kilometres', () => {
    expect(inWords(distance(1609.344 * 14, 'us'))).toBe('14.0 mi')
    expect(inWords(distance(22_628, 'metric'))).toBe('22.6 km')
  })

  it('gives a pole in whole feet or metres', () => {
    expect(inWords(length(45 * 0.3048, 'us'))).toBe('45 ft')
    expect(inWords(length(1234.4, 'metric'))).toBe('1,234 m')
  })

  it('writes money with its sign in front', () => {
    expect(usd(100_000)).toBe('$100,000')
    expect(usd(-412.6)).toBe('−$413')
  })
})

describe('words', () => {
  it('counts one thing and many', () => {
    expect(counted(1, 'customer')).toBe('1 customer')
    expect(counted(1200, 'customer')).toBe('1,200 customers')
  })

  it('lists with an and before the last', () => {
    expect(listed(['A'])).toBe('A')
    expect(listed(['A', 'B', 'C'])).toBe('A, B and C')
  })

  it('says which way a tap stands', () => {
    expect([tapWords(6), tapWords(0), tapWords(-3)]).toEqual(['6 raise', 'neutral', '3 lower'])
  })
})
