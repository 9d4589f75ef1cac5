import { afterEach, describe, expect, it, vi } from 'vitest'
import { z } from 'zod'
import { Step } from '#domain/jobs/step-sequence.ts'
import { withName } from '../../../web/crew/work/crew-names.ts'
import { draftOfEntry } from '../../../web/crew/work/draft-of-entry.ts'
import { keptOnDevice } from '../../../web/crew/work/kept-on-device.ts'
import { numberOfText } from '../../../web/crew/work/number-of-text.ts'
import { otherSign } from '../../../web/crew/work/other-sign.ts'
import { EMPTY_STEP_DRAFT, openPoints, readDraft } from '../../../web/crew/work/step-draft.ts'
import { found } from './made-job.ts'

const STEP = Step.parse({
  id: 'prove',
  text: 'Prove neutral.',
  isHoldPoint: true,
  signedBy: 'two of the crew',
  asks: [
    { id: 'indicator', what: 'Position indicator', kind: 'number', unit: 'steps' },
    { id: 'lamp', what: 'Lamp lit', kind: 'yes or no', isNeeded: false },
  ],
})

describe('a number', () => {
  it('is read as people type it on a keypad', () => {
    const typed = ['7,215.5', '−3', '-3', ' 12 ', '12,5', '0', '.5', '1,204,000']
    expect(typed.map(numberOfText)).toEqual([7215.5, -3, -3, 12, 12.5, 0, 0.5, 1204000])
  })

  it('is not made of anything else', () => {
    expect(['', 'neutral', '1.2.3', '12 V', '--3', '1e9'].map(numberOfText)).toEqual(
      Array(6).fill(null),
    )
  })

  it('changes its sign by a key, there and back', () => {
    expect(otherSign('3')).toBe('-3')
    expect(otherSign('-3')).toBe('3')
    expect(otherSign('−3')).toBe('3')
    expect(otherSign('')).toBe('-')
  })
})

describe('a half-filled step', () => {
  it('says what is still asked for and that two people sign', () => {
    expect(openPoints(STEP, EMPTY_STEP_DRAFT)).toEqual([
      'Still asked for: position indicator.',
      'Two different people of the crew have to sign.',
    ])
    const draft = { ...EMPTY_STEP_DRAFT, values: { indicator: '0' }, signedBy: ['Robin'] }
    expect(openPoints(STEP, draft)).toEqual(['A second person has to sign, too.'])
    expect(openPoints(STEP, { ...draft, signedBy: ['Robin', 'Kim'] })).toEqual([])
  })

  it('gives numbers as numbers and leaves out what was not answered', () => {
    const draft = { ...EMPTY_STEP_DRAFT, values: { indicator: '−2', lamp: false } }
    expect(readDraft(STEP, draft).values).toEqual({ indicator: -2, lamp: false })
    const wrong = { ...EMPTY_STEP_DRAFT, values: { indicator: 'two' } }
    expect(readDraft(STEP, wrong).faults).toEqual({ indicator: '“two” is not a number.' })
  })

  it('can be filled in again from an entry that was refused', () => {
    const draft = draftOfEntry(found('entry-a', 'A', -2))
    expect(draft?.values).toEqual({ tap: '-2', counter: '1204' })
    expect(draft?.signedBy).toEqual(['Robin'])
  })
})

describe('names of the crew', () => {
  it('stand once however they are spelt, the newest last', () => {
    expect(withName(['Kim', 'Robin'], ' robin  ')).toEqual(['Kim', 'robin'])
    expect(withName(['Kim'], '   ')).toEqual(['Kim'])
  })
})

describe('what is kept on the device', () => {
  afterEach(() => vi.unstubAllGlobals())

  function stubStorage(): Map<string, string> {
    const stored = new Map<string, string>()
    const localStorage = {
      getItem: (name: string) => stored.get(name) ?? null,
      setItem: (name: string, value: string) => stored.set(name, value),
      removeItem: (name: string) => stored.delete(name),
    }
    vi.stubGlobal('window', { localStorage })
    return stored
  }

  it('is there again after a reload, and gone once it is let go', () => {
    stubStorage()
    keptOnDevice('test', z.string()).keep('one', 'typed')
    const reloaded = keptOnDevice('test', z.string())
    expect(reloaded.get('one')).toBe('typed')
    reloaded.keep('one', null)
    expect(keptOnDevice('test', z.string()).get('one')).toBeNull()
  })

  it('is let go where it no longer fits, and lives with the page where nothing can be stored', () => {
    stubStorage().set('test:one', '{"not": "a text"}')
    expect(keptOnDevice('test', z.string()).get('one')).toBeNull()
    vi.stubGlobal('window', {})
    const unstored = keptOnDevice('test', z.string())
    unstored.keep('one', 'typed')
    expect(unstored.get('one')).toBe('typed')
  })
})
