import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { valueFault } from '../../../server/http/plain-value.ts'

const nested = (depth: number): unknown => JSON.parse('['.repeat(depth) + ']'.repeat(depth))

describe('a body', () => {
  it('of ordinary JSON is taken, whatever it says', () => {
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 8 }), (value) => {
        fc.pre(!/\\u0000|\\ud[89a-f]|__proto__/i.test(JSON.stringify(value)))
        expect(valueFault(value)).toBeNull()
      }),
    )
  })

  it('with a NUL character in a text or a name is refused with its place', () => {
    expect(valueFault({ a: [{ note: 'x\0y' }] })).toEqual({
      path: ['a', '0', 'note'],
      what: 'holds a NUL character',
    })
    expect(valueFault({ a: { 'x\0': 1 } })?.what).toBe('holds a NUL character')
  })

  it('with half of a surrogate pair is refused, with a whole one it is taken', () => {
    expect(valueFault(['\ud83e'])?.what).toBe('holds half of a surrogate pair')
    expect(valueFault(['\udd85x'])?.what).toBe('holds half of a surrogate pair')
    expect(valueFault(['🦅'])).toBeNull()
  })

  it.each(['{"__proto__":{"role":"administrator"}}', '{"a":[{"\\u005f_proto__":1}]}'])(
    'that would change what an object is, as %s, is refused',
    (text) => {
      expect(valueFault(JSON.parse(text))?.path.at(-1)).toBe('__proto__')
    },
  )

  it('that is nested too deep is refused, however deep', () => {
    expect(valueFault(nested(32))).toBeNull()
    for (const depth of [33, 100_000]) {
      expect(valueFault(nested(depth))?.what).toMatch(/nested deeper/)
    }
  })
})
