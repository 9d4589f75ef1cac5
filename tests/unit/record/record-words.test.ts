import { describe, expect, it } from 'vitest'
import { staleAfter } from '../../../web/api/refresh-after.ts'
import { fileFault } from '../../../web/record/file-fault.ts'
import { agoInWords, isEnteredEarlier } from '../../../web/record/moment-in-words.ts'
import { sizeInWords } from '../../../web/record/size-in-words.ts'

const AT = '2026-11-25T12:00:00.000Z'
const minutesLater = (minutes: number) => Date.parse(AT) + minutes * 60_000

describe('a moment', () => {
  it('is told as how long ago it was', () => {
    expect(agoInWords(AT, minutesLater(0.5))).toBe('just now')
    expect(agoInWords(AT, minutesLater(1))).toBe('1 minute ago')
    expect(agoInWords(AT, minutesLater(150))).toBe('2 hours ago')
    expect(agoInWords(AT, minutesLater(60 * 24 * 3))).toBe('3 days ago')
  })

  it('is told by its date alone after a month', () => {
    expect(agoInWords(AT, minutesLater(60 * 24 * 31))).toBeNull()
  })

  it('in the future of a slow clock is just now', () => {
    expect(agoInWords(AT, minutesLater(-10))).toBe('just now')
  })

  it('of the device is told beside the server’s only where they differ', () => {
    expect(isEnteredEarlier(null, AT)).toBe(false)
    expect(isEnteredEarlier('2026-11-25T11:59:30.000Z', AT)).toBe(false)
    expect(isEnteredEarlier('2026-11-25T09:12:00.000Z', AT)).toBe(true)
  })
})

describe('a file to attach', () => {
  const photo = { name: 'a.jpg', type: 'image/jpeg', size: 1000 }

  it('is taken as photo or report', () => {
    expect(fileFault(photo)).toBeNull()
    expect(fileFault({ ...photo, type: 'application/pdf' })).toBeNull()
    expect(fileFault({ ...photo, type: '' })).toBeNull()
  })

  it('too large, empty or of another kind is refused with what to do', () => {
    expect(fileFault({ ...photo, size: 26 * 1024 * 1024 })).toMatch(/26 MB; at most 25 MB/)
    expect(fileFault({ ...photo, size: 0 })).toMatch(/empty/)
    expect(fileFault({ ...photo, type: 'image/heic' })).toMatch(/Set the camera to JPEG/)
    expect(fileFault({ ...photo, type: 'text/html' })).toMatch(/neither a photo/)
  })

  it('has a size that people read', () => {
    expect(sizeInWords(640)).toBe('640 bytes')
    expect(sizeInWords(85_000)).toBe('83 kB')
  })
})

describe('a change by someone else', () => {
  const notice = {
    seq: 7,
    feederId: 'windmill',
    subjectId: 'x',
    version: 2,
    what: 'changed',
    actorId: 'a',
    at: AT,
  } as const

  it('makes lists, the thing itself and its history be asked again', () => {
    expect(staleAfter({ ...notice, subject: 'proposal' })).toEqual([
      ['history', 'proposal', 'x'],
      ['proposals', 'windmill'],
      ['proposal', 'x'],
      ['deleted', 'windmill'],
    ])
    expect(staleAfter({ ...notice, subject: 'protection' })).toContainEqual([
      'protections',
      'windmill',
    ])
  })

  it('of a feeder does not put another version under the hands of whoever looks at it', () => {
    const keys = staleAfter({ ...notice, subject: 'feeder' }).map(([first]) => first)
    expect(keys).toContain('feeders')
    expect(keys).not.toContain('feeder')
  })
})
