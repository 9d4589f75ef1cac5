import { describe, expect, it } from 'vitest'
import { routes } from '#contract/routes.ts'
import { keyOfWrite, letGoOfKey } from '../../../web/api/repeat-keys.ts'

const route = routes.startStudy
const input = (feederId: string) => ({ params: { feederId }, body: { request: { banks: 1 } } })
const MINUTE_MS = 60_000

describe('the key of a write', () => {
  it('stays the same when the button is pressed again before an answer came', () => {
    const key = keyOfWrite(route, input('a'), 0)
    expect(key).toMatch(/^[0-9a-f]{32}$/)
    expect(keyOfWrite(route, input('a'), MINUTE_MS)).toBe(key)
  })

  it('is another one for another write, after an answer, and after a while', () => {
    const key = keyOfWrite(route, input('b'), 0)
    expect(keyOfWrite(route, input('c'), 0)).not.toBe(key)
    expect(keyOfWrite(route, input('b'), 11 * MINUTE_MS)).not.toBe(key)
    const later = keyOfWrite(route, input('b'), 12 * MINUTE_MS)
    letGoOfKey(route, input('b'))
    expect(keyOfWrite(route, input('b'), 12 * MINUTE_MS)).not.toBe(later)
  })

  it('tells two files of one name apart by their size', () => {
    const file = (text: string) => ({ file: new File([text], 'pole.jpg', { lastModified: 1 }) })
    expect(keyOfWrite(routes.attach, file('a'))).not.toBe(keyOfWrite(routes.attach, file('ab')))
  })
})
