import { describe, expect, it } from 'vitest'
import { NestBody } from '#contract/nests.ts'
import { bodyOfNest, fieldsOfRule, newNest } from '../../../web/coordinator/finds/nest-body.ts'
import { NEST_FIELDS } from '../../../web/coordinator/finds/nest-fields.ts'
import {
  nextSeason,
  seasonsInWords,
  textOfSeasons,
  withLook,
  withSeason,
} from '../../../web/coordinator/finds/nest-seasons.ts'
import { placeOfText, textOfPlace } from '../../../web/coordinator/finds/place-text.ts'

const nowhere = () => undefined

describe('the form of a nest', () => {
  it('has every field that the record can hold', () => {
    expect(NEST_FIELDS.map(({ key }) => key).sort()).toEqual(Object.keys(NestBody.shape).sort())
  })

  it('takes buffer, season and source from a rule', () => {
    const rule = {
      species: 'Bald eagle',
      distanceM: 804.672,
      from: '10-15',
      to: '07-31',
      sureness: 'published',
    } as const
    const typed = {
      ...newNest('2026-03-01', null, [-107, 43]),
      species: 'bald eagle',
      ...fieldsOfRule(rule, 'a permit record (2021)'),
    }
    expect(bodyOfNest(typed, nowhere)).toMatchObject({
      body: { bufferM: 805, seasonFrom: '10-15', seasonTo: '07-31', at: [-107, 43] },
    })
  })

  it('asks for the buffer and a season as month and day', () => {
    const typed = {
      ...newNest('2026-03-01', null, [-107, 43]),
      species: 'raven',
      seasonFrom: '2-15',
    }
    expect(bodyOfNest(typed, nowhere)).toEqual({
      faults: {
        bufferM: expect.stringContaining('Give metres'),
        seasonFrom: 'Give month and day, as 02-15.',
        seasonTo: 'Give month and day, as 02-15.',
      },
    })
  })
})

describe('the seasons of a nest', () => {
  it('take a look into the season of its year and keep the rest of it', () => {
    const before = [{ year: 2025, status: 'unknown', young: 2 } as const]
    const after = withLook(before, 'in use', '2025-05-02')
    expect(after).toEqual([{ year: 2025, status: 'in use', seenOn: '2025-05-02', young: 2 }])
    expect(withLook(after, 'not in use', '2026-04-01').map(({ year }) => year)).toEqual([
      2026, 2025,
    ])
    expect(seasonsInWords(textOfSeasons(after))).toBe('2025: in use, seen 2025-05-02, 2 young')
  })

  it('are added for this year first, then backwards', () => {
    expect(nextSeason([], 2026)).toBe(2026)
    expect(nextSeason(withSeason([], 2026), 2026)).toBe(2025)
  })
})

describe('a place as people write it', () => {
  it('reads back as it was written', () => {
    expect(placeOfText(textOfPlace([-107.168132, 43.68077]))).toEqual([-107.168132, 43.68077])
    expect(placeOfText(' 43.68°  -107.1 ')).toEqual([-107.1, 43.68])
  })

  it.each(['', 'by the creek', '95, 10', '43.6'])('“%s” is none', (text) => {
    expect(placeOfText(text)).toBeNull()
  })
})
