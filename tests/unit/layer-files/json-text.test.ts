import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { readJson } from '../../../server/layer-files/json-text.ts'

describe('text that is not JSON', () => {
  it.each([
    ['{"a": 1,}', 1, 9],
    ['{"a": x}', 1, 7],
    ['{"a": 1', 1, 8],
    ['', 1, 1],
    ['{\n  "a": 1\n  "b": 2\n}', 3, 3],
    ['[1,\n 2,\n 03]', 3, 3],
    ['{"a": [1, 2}', 1, 12],
    ["{'a': 1}", 1, 2],
    ['[1, 2] 3', 1, 8],
    ['["a\nb"]', 1, 2],
    ['["\\x"]', 1, 2],
  ])('%j is refused at line %i, column %i', (text, line, column) => {
    expect(readJson(text)).toMatchObject({ isValid: false, line, column })
  })

  it('says what was expected and what stood there', () => {
    const reading = readJson('{"a": 1,}')
    expect(reading).toMatchObject({
      reason: 'a property name in double quotes expected, "}" found',
    })
  })

  it('finds a fault no later than a cut through sound JSON, wherever it is cut', () => {
    fc.assert(
      fc.property(fc.json(), fc.nat(), (text, at) => {
        const cut = text.slice(0, at % text.length)
        const reading = readJson(cut)
        if (reading.isValid) return
        expect(reading.line).toBe(1)
        expect(reading.column).toBeLessThanOrEqual(cut.length + 1)
      }),
      { numRuns: 500, seed: 11 },
    )
  })

  it('is found in any text that the platform cannot parse', () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom(...'{}[]",:1e-.tru\\n ') }), (text) => {
        const reading = readJson(text)
        if (!reading.isValid) expect(reading.column).toBeGreaterThanOrEqual(1)
      }),
      { numRuns: 2000, seed: 7 },
    )
  })
})

describe('a string of many megabytes', () => {
  it.each(['"', '"\n', `"${'\\n'.repeat(10)}\\x`])('that ends in %j is found at fault', (end) => {
    const reading = readJson(`{"note": "${'a'.repeat(12_000_000)}${end}`)
    expect(reading.isValid).toBe(false)
  })
})
