import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { compareFields, mergeFields, openChoices } from '../../../web/record/merge-fields.ts'

const KEYS = ['state', 'on', 'note']
const base = { state: 'planned', on: '2026-03-01', note: '' }

describe('two versions of one thing', () => {
  it('that changed different fields are offered together, with nothing to choose', () => {
    const mine = { ...base, note: 'cracked' }
    const theirs = { ...base, state: 'on' }
    const compared = compareFields(KEYS, base, mine, theirs)
    expect(openChoices(compared, {})).toEqual([])
    expect(mergeFields(compared, {})).toEqual({ state: 'on', on: '2026-03-01', note: 'cracked' })
  })

  it('that changed the same field leave that choice to the person, either way', () => {
    const mine = { ...base, note: 'mine' }
    const theirs = { ...base, note: 'theirs' }
    const compared = compareFields(KEYS, base, mine, theirs)
    expect(openChoices(compared, {})).toEqual(['note'])
    expect(mergeFields(compared, { note: 'mine' }).note).toBe('mine')
    expect(mergeFields(compared, { note: 'theirs' }).note).toBe('theirs')
  })

  it('whose beginning is not known leave every difference to the person', () => {
    const compared = compareFields(KEYS, null, base, { ...base, state: 'on', note: 'n' })
    expect(openChoices(compared, {})).toEqual(['state', 'note'])
  })

  it('never lose what one side alone changed, whatever was typed', () => {
    const text = fc.string({ maxLength: 3 })
    const fields = fc.record({ state: text, on: text, note: text })
    fc.assert(
      fc.property(fields, fields, fields, (began, mine, theirs) => {
        const compared = compareFields(KEYS, began, mine, theirs)
        const merged = mergeFields(compared, {})
        for (const key of ['state', 'on', 'note'] as const) {
          if (theirs[key] === began[key]) expect(merged[key]).toBe(mine[key])
          if (mine[key] === began[key]) expect(merged[key]).toBe(theirs[key])
        }
      }),
    )
  })
})
