import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { z } from 'zod'
import { Step } from '#domain/jobs/step-sequence.ts'
import { withName } from '../../../web/crew/work/crew-names.ts'
import { draftOfEntry } from '../../../web/crew/work/draft-of-entry.ts'
import { keptOnDevice } from '../../../web/crew/work/kept-on-device.ts'
import { numberOfText } from '../../../web/crew/work/number-of-text.ts'
import { otherSign } from '../../../web/crew/work/other-sign.ts'
import { EMPTY_STEP_DRAFT, openPoints, readDraft } from '../../../web/crew/work/step-draft.ts'
import { dropKeptOf, keptInWords } from '../../../web/device/kept-values.ts'
import { personHere } from '../../../web/device/person.ts'
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
  beforeEach(() => personHere.set('kim'))
  afterEach(() => {
    personHere.set(null)
    vi.unstubAllGlobals()
  })

  /** The part of the browser's storage that is used here. */
  function stubStorage(): Map<string, string> {
    const stored = new Map<string, string>()
    const localStorage = {
      get length() {
        return stored.size
      },
      key: (index: number) => [...stored.keys()][index] ?? null,
      getItem: (name: string) => stored.get(name) ?? null,
      setItem: (name: string, value: string) => stored.set(name, value),
      removeItem: (name: string) => stored.delete(name),
    }
    vi.stubGlobal('window', { localStorage })
    return stored
  }
  const open = () => keptOnDevice('remark-draft', z.string())

  it('is there again after a reload, and gone once it is let go', () => {
    stubStorage()
    open().keep('one', 'typed')
    const reloaded = open()
    expect(reloaded.get('one')).toBe('typed')
    reloaded.keep('one', null)
    expect(open().get('one')).toBeNull()
  })

  it('is let go where it no longer fits, and lives with the page where nothing can be stored', () => {
    stubStorage().set('crossarm.of:kim:remark-draft:one', '{"not": "a text"}')
    expect(open().get('one')).toBeNull()
    vi.stubGlobal('window', {})
    const unstored = open()
    unstored.keep('one', 'typed')
    expect(unstored.get('one')).toBe('typed')
  })

  it('is seen by the person who typed it and by nobody else on the same page', () => {
    stubStorage()
    const drafts = open()
    drafts.keep('one', 'of Kim')
    personHere.set('robin')
    expect(drafts.get('one')).toBeNull()
    drafts.keep('one', 'of Robin')
    personHere.set('kim')
    expect(drafts.get('one')).toBe('of Kim')
  })

  it('goes when the person signs out, which is said before, and leaves what others typed', () => {
    const stored = stubStorage()
    stored.set('crossarm.theme', 'dark')
    open().keep('one', 'of Kim')
    open().keep('two', 'also of Kim')
    keptOnDevice('kit', z.array(z.string())).keep('job-1', ['rope'])
    personHere.set('robin')
    open().keep('one', 'of Robin')
    expect(keptInWords('kim')).toEqual([
      '2 remarks written and not entered',
      '1 kit list that was ticked off',
    ])
    dropKeptOf('kim')
    expect(keptInWords('kim')).toEqual([])
    expect(open().get('one')).toBe('of Robin')
    expect(stored.get('crossarm.theme')).toBe('dark')
  })

  it('of an earlier version goes once to whoever comes first', () => {
    const stored = stubStorage()
    stored.set('crossarm.remark-draft:one', '"from before"')
    expect(open().get('one')).toBe('from before')
    personHere.set('robin')
    expect(open().get('one')).toBeNull()
    expect([...stored.keys()]).toEqual(['crossarm.of:kim:remark-draft:one'])
  })
})
