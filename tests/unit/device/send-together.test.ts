import { describe, expect, it } from 'vitest'
import { joinedInput, joinedKey, nextTogether } from '../../../web/api/send-together.ts'
import type { StoredItem } from '../../../web/device/device-tables.ts'

const item = (id: string, more: Partial<StoredItem> = {}): StoredItem => ({
  id,
  form: 1,
  key: id,
  personId: 'crew',
  order: 1,
  enteredAt: '2026-11-20T15:00:00.000Z',
  what: id,
  jobId: 'J1',
  name: 'sendEntries',
  input: { params: { jobId: 'J1' }, body: { entries: [{ id: `e-${id}` }] } },
  hasFile: false,
  after: [],
  state: 'waiting',
  tries: 0,
  ...more,
})
const many = (count: number, more: Partial<StoredItem> = {}) =>
  Array.from({ length: count }, (_, index) => item(String(index), more))
const NONE: ReadonlySet<string> = new Set()

describe('what goes out in one request', () => {
  it('is as many entries of a job as the server takes, and half as many after each lost try', () => {
    expect(nextTogether(many(250), NONE)).toHaveLength(200)
    expect(nextTogether(many(250, { tries: 1 }), NONE)).toHaveLength(100)
    for (const tries of [8, 40]) expect(nextTogether(many(250, { tries }), NONE)).toHaveLength(1)
    expect(nextTogether([], NONE)).toEqual([])
  })

  it('ends at anything else of the job, and leaves other jobs for later', () => {
    const photo = item('photo', { name: 'attach', hasFile: true })
    const other = item('other', { jobId: 'J2', input: { params: { jobId: 'J2' } } })
    const ids = nextTogether([item('a'), other, item('b'), photo, item('c')], NONE)
    expect(ids.map(({ id }) => id)).toEqual(['a', 'b'])
    expect(nextTogether([photo, item('c')], NONE)).toEqual([photo])
  })

  it('is one alone where it was refused with others before', () => {
    const [a, b, c] = [item('a'), item('b'), item('c')]
    expect(nextTogether([a, b, c], new Set(['a']))).toEqual([a])
    expect(nextTogether([a, b, c], new Set(['b']))).toEqual([a])
  })

  it('carries its key where it is one, and the entries of all where they are several', () => {
    expect(joinedKey([item('a')])).toBe('a')
    expect(joinedKey([item('a'), item('b')])).toBeNull()
    expect(joinedInput([item('a'), item('b')])).toEqual({
      params: { jobId: 'J1' },
      body: { entries: [{ id: 'e-a' }, { id: 'e-b' }] },
    })
  })
})
