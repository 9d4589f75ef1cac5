import { describe, expect, it } from 'vitest'
import { fileKey } from '../../../server/layer-files/file-key.ts'

describe('the spelling of a property in a file', () => {
  it.each([
    ['id', 'id'],
    ['lengthM', 'length_m'],
    ['isNormallyOpen', 'is_normally_open'],
    ['kwAb', 'kw_ab'],
    ['zOhmPerKm', 'z_ohm_per_km'],
    ['r1Ohm', 'r1_ohm'],
    ['lowVolts120', 'low_volts120'],
    ['A', 'A'],
    ['BC', 'BC'],
  ])('of %s is %s', (codeKey, spelt) => {
    expect(fileKey(codeKey)).toBe(spelt)
  })
})
