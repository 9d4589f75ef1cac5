import { describe, expect, it } from 'vitest'
import { Equipment } from '#domain/feeder/equipment.ts'
import { Load } from '#domain/feeder/load.ts'
import { customersInWords, equipmentInWords } from '../../../web/state/equipment-in-words.ts'

const words = (item: object): string => equipmentInWords(Equipment.parse({ pole: 'P1', ...item }))

describe('what hangs on a pole', () => {
  it('tells a regulator bank with its size and its taps as raise and lower', () => {
    const bank = {
      id: 'R-1',
      kind: 'regulator',
      span: 'S1',
      phases: 'ABC',
      windingType: 'B',
      ratingKva: 167,
      ptRatio: 120,
      ctPrimaryA: 100,
      bandCentreV: 122,
      bandwidthV: 2,
      tapA: 8,
      tapB: -2,
    }
    expect(words(bank)).toBe(
      'Voltage regulator bank (R-1), phases A, B and C, 167 kVA a unit, type B, wye; taps as recorded A 8 raise, B 2 lower, C neutral',
    )
  })

  it('warns that a solar plant feeds the line from its side', () => {
    expect(words({ id: 'G-1', kind: 'solar', phases: 'ABC', ratedKw: 900 })).toContain(
      '900 kW; it can feed the line from its side',
    )
  })

  it('counts cutouts and names the phases of a tap', () => {
    expect(words({ id: 'K-1', kind: 'cutout', phases: 'AB', count: 2 })).toBe(
      '2 cutouts (K-1), phases A and B',
    )
    expect(words({ id: 'K-2', kind: 'arrester', phases: 'B' })).toBe('1 arrester (K-2), phase B')
  })

  it('adds up the kilovars of a capacitor bank and says whether it is on', () => {
    const bank = { id: 'C-1', kind: 'capacitor', phases: 'ABC', kvarA: 100, kvarB: 100, kvarC: 100 }
    expect(words(bank)).toContain('300 kvar in all, recorded on')
  })

  it('tells a service transformer from one in the line, and an open switch from a closed one', () => {
    expect(words({ id: 'T-1', kind: 'transformer', phases: 'B', ratingKva: 15 })).toBe(
      'Service transformer (T-1), phase B, 15 kVA, single phase',
    )
    expect(
      words({ id: 'W-1', kind: 'switch', span: 'S1', phases: 'ABC', state: 'open' }),
    ).toContain('recorded open')
  })

  it('tells customers with their class, and leaves out loads without any', () => {
    const load = { id: 'L-1', pole: 'P1', customers: 2, customerClass: 'irrigation' }
    expect(customersInWords(Load.parse(load))).toBe('2 customers (irrigation)')
    expect(customersInWords(Load.parse({ id: 'L-2', pole: 'P1' }))).toBeNull()
  })
})
