import { describe, expect, it } from 'vitest'
import { changeInWords } from '../../../web/record/change-in-words.ts'

const cover = {
  id: 'cover-1',
  pole: 'P-12',
  kind: 'cover',
  what: 'bushing cover, A phase',
  state: 'planned',
  on: '2026-03-01',
  version: 1,
  changedBy: { id: 'a', role: 'crew' },
  changedAt: '2026-03-01T10:00:00.000Z',
  deletedAt: null,
}
const protection = { subject: 'protection', version: 2, reason: null } as const
const proposal = { subject: 'proposal', version: 1, reason: null } as const
const kept = {
  name: 'East bank',
  note: '',
  request: { banks: 1 },
  proposal: { banks: [{ pole: 'P-30', ratingKva: 76.2 }], reason: 'Long text.' },
}

describe('a change in words', () => {
  it('tells each changed field by its name in the trade, from what to what', () => {
    const after = { ...cover, state: 'on', note: 'set from the bucket', version: 2 }
    const told = changeInWords({ ...protection, what: 'changed', before: cover, after })
    expect(told.headline).toBe('Changed the cover “bushing cover, A phase” on pole P-12.')
    expect(told.fields).toEqual([
      { label: 'State', from: 'planned', to: 'on the pole' },
      { label: 'Note', from: '', to: 'set from the bucket' },
    ])
  })

  it('leaves out version, time and whoever wrote, which say nothing of the thing', () => {
    const after = { ...cover, version: 2, changedAt: '2026-03-02T10:00:00.000Z' }
    const told = changeInWords({ ...protection, what: 'changed', before: cover, after })
    expect(told).toEqual({
      headline: 'Saved the cover “bushing cover, A phase” on pole P-12 without a change.',
      fields: [],
    })
  })

  it('says what a new item was', () => {
    const told = changeInWords({ ...protection, what: 'added', before: null, after: cover })
    expect(told.headline).toBe(
      'Recorded the cover “bushing cover, A phase” on pole P-12: planned since 2026-03-01.',
    )
  })

  it('tells of a kept proposal its name and poles, not its whole content', () => {
    const told = changeInWords({ ...proposal, what: 'added', before: null, after: kept })
    expect(told).toEqual({
      headline: 'Kept the proposal “East bank”: a bank at pole P-30.',
      fields: [],
    })
  })

  it('does not list the members of a proposal that nobody can edit', () => {
    const after = { ...kept, name: 'West bank', proposal: { banks: [] } }
    const told = changeInWords({ ...proposal, what: 'changed', before: kept, after })
    expect(told.fields).toEqual([{ label: 'Name', from: 'East bank', to: 'West bank' }])
  })

  it('says why something was removed for good', () => {
    const purged = { ...proposal, what: 'purged', reason: 'kept twice', before: kept, after: null }
    expect(changeInWords({ ...purged, what: 'purged' }).headline).toBe(
      'Removed the proposal “East bank” for good, because: kept twice.',
    )
  })

  it('tells of a feeder which version came and what it counts', () => {
    const before = { version: 1, name: 'Windmill', poles: 1, customers: 40 }
    const after = { version: 2, name: 'Windmill', poles: 312, customers: 40 }
    const told = changeInWords({
      subject: 'feeder',
      what: 'changed',
      version: 2,
      reason: null,
      before,
      after,
    })
    expect(told).toEqual({
      headline: 'Took in version 2 of the feeder Windmill.',
      fields: [{ label: 'Poles', from: '1 pole', to: '312 poles' }],
    })
  })

  it('tells a photo with its size, and roles as people say them', () => {
    const photo = { fileName: 'pole.jpg', mediaType: 'image/jpeg', sizeBytes: 2_516_582 }
    const attached = { subject: 'attachment', what: 'added', version: 1, reason: null } as const
    expect(changeInWords({ ...attached, before: null, after: photo }).headline).toBe(
      'Attached the photo “pole.jpg” (2.4 MB).',
    )
    const person = { subject: 'person', what: 'changed', version: 2, reason: null } as const
    const before = { name: 'Ana Reyes', roles: ['crew'], state: 'active' }
    const after = { ...before, roles: ['crew', 'supervisor'], state: 'closed' }
    expect(changeInWords({ ...person, before, after }).fields).toEqual([
      { label: 'Roles', from: 'crew', to: 'crew and supervisor' },
      { label: 'Account', from: 'can sign in', to: 'closed, cannot sign in' },
    ])
  })

  it('stays readable where an old entry holds less than today’s', () => {
    const told = changeInWords({ ...proposal, what: 'deleted', before: {}, after: {} })
    expect(told.headline).toMatch(/^Deleted the proposal/)
  })

  it('tells what a person did with their account', () => {
    const sam = { name: 'Sam', roles: ['crew'], state: 'active' }
    const entry = { subject: 'person', what: 'changed', version: 3, reason: null } as const
    const told = (step: string) =>
      changeInWords({ ...entry, before: sam, after: { ...sam, step } }).headline
    expect(told('second-factor-off')).toBe('Turned the second factor of Sam off.')
    expect(told('passkey-added')).toBe('Added a passkey of Sam.')
    expect(told('something unknown')).toBe('Saved Sam without a change.')
  })
})
