import { describe, expect, it } from 'vitest'
import { IncidentBody, type IncidentRecord } from '#contract/incidents.ts'
import { bodyOfFind, fieldsOfFind, newFind } from '../../../web/coordinator/finds/find-body.ts'
import { FIND_FIELDS } from '../../../web/coordinator/finds/find-fields.ts'

const poles = new Map([['P-1', [-107.1, 43.6] as [number, number]]])
const placeOf = (id: string) => poles.get(id)
const typed = (more: Record<string, string> = {}) => ({
  ...newFind('2026-03-01', null, null),
  pole: 'P-1',
  species: 'golden eagle',
  cause: 'confirmed electrocution',
  ...more,
})

describe('the form of a find', () => {
  it('has every field that the record can hold', () => {
    const offered = new Set(FIND_FIELDS.map(({ key }) => key))
    expect([...offered].sort()).toEqual(Object.keys(IncidentBody.shape).sort())
  })

  it('takes the place of the pole where none is given', () => {
    expect(bodyOfFind(typed(), placeOf)).toMatchObject({
      body: { at: [-107.1, 43.6], pole: 'P-1', foundOn: '2026-03-01' },
    })
  })

  it('leaves out what was left empty, and turns numbers and yes or no into such', () => {
    const checked = bodyOfFind(
      typed({ count: '2', hadOutage: 'no', outageMin: '12,5', customersOut: '41' }),
      placeOf,
    )
    expect(checked).toMatchObject({
      body: { count: 2, hadOutage: false, outageMin: 12.5, customersOut: 41 },
    })
    expect('body' in checked && Object.keys(checked.body)).not.toContain('finder')
  })

  it('says what to do for each field that is missing or not understood', () => {
    const checked = bodyOfFind(
      typed({ species: '', cause: '', pole: '', count: 'two', foundOn: 'spring' }),
      placeOf,
    )
    expect(checked).toEqual({
      faults: {
        species: 'Say which species, or “unknown raptor”.',
        cause: 'Choose the cause, or “unknown”.',
        at: expect.stringContaining('latitude and longitude'),
        count: 'Give a whole number, 1 or more.',
        foundOn: 'Give a date, as 2026-11-25.',
      },
    })
  })

  it('knows no pole that the feeder does not have', () => {
    expect(bodyOfFind(typed({ pole: 'X-9' }), placeOf)).toEqual({
      faults: { pole: expect.stringContaining('no pole X-9') },
    })
  })

  it('brings back what was recorded, unchanged', () => {
    const record: IncidentRecord = {
      id: 'F-1',
      at: [-107.168132, 43.68077],
      foundOn: '2024-03-14',
      species: 'golden eagle',
      cause: 'probable electrocution',
      count: 2,
      hadOutage: true,
      suspectedPartA: 'cutout-A',
      note: 'remains only',
      version: 3,
      changedBy: { id: 'actor', role: 'coordinator' },
      changedAt: '2026-01-01T00:00:00.000Z',
      deletedAt: null,
    }
    const { id: _, version, changedBy, changedAt, deletedAt, ...body } = record
    expect(bodyOfFind(fieldsOfFind(record), placeOf)).toEqual({ body })
  })
})
