import { describe, expect, it } from 'vitest'
import type { ProtectionRecord } from '#contract/protections.ts'
import { changeInWords } from '../../../web/coordinator/history-in-words.ts'

const record: ProtectionRecord = {
  id: 'I-1',
  pole: 'P-1',
  kind: 'cover',
  what: 'bushing cover, A phase',
  state: 'planned',
  on: '2026-03-01',
  version: 1,
  changedBy: { id: 'dana', role: 'coordinator' },
  changedAt: '2026-03-01T10:00:00Z',
  deletedAt: null,
}
const change = (before: ProtectionRecord | null, after: ProtectionRecord) =>
  changeInWords({
    at: after.changedAt,
    actorId: 'dana',
    actorRole: 'coordinator',
    before,
    after,
  })

describe('the history of an item', () => {
  it('tells what was added', () => {
    expect(change(null, record)).toEqual([
      'Added: cover (bushing cover, A phase), planned since 2026-03-01.',
    ])
  })

  it('tells each field that changed, from what to what', () => {
    const after = { ...record, state: 'on' as const, on: '2026-04-02', note: 'checked' }
    expect(change(record, after)).toEqual([
      'State from "planned" to "on".',
      'Date of the state from "2026-03-01" to "2026-04-02".',
      'Note set to "checked".',
    ])
    expect(change(after, { ...after, note: undefined })).toEqual(['Note cleared, was "checked".'])
  })

  it('tells removal from the record and its undoing', () => {
    const gone = { ...record, deletedAt: '2026-05-01T00:00:00Z' }
    expect(change(record, gone)).toEqual(['Taken off the record.'])
    expect(change(gone, record)).toEqual(['Brought back to the record.'])
  })

  it('is never silent about a save that changed nothing', () => {
    expect(change(record, record)).toEqual(['Saved without a change.'])
  })
})
