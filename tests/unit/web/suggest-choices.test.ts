import { describe, expect, it } from 'vitest'
import { SiteRequest } from '#domain/siting/site-request.ts'
import {
  defaultChoices,
  requestOfChoices,
  type SuggestChoices,
} from '../../../web/planner/suggest-choices.ts'

const LIMITS = { lowVolts120: 118, highVolts120: 126 }

function changed(numbers: Partial<SuggestChoices['numbers']>): SuggestChoices {
  const plain = defaultChoices(LIMITS, 'metric')
  return { ...plain, numbers: { ...plain.numbers, ...numbers } }
}

describe('the choices of a study', () => {
  it('are the defaults of a request with the limits of the feeder', () => {
    const asked = requestOfChoices(defaultChoices(LIMITS, 'metric'), 'metric')
    expect(asked).toEqual({ request: SiteRequest.parse(LIMITS) })
  })

  it('take lengths in feet where the person reads feet', () => {
    const choices = defaultChoices(LIMITS, 'us')
    expect(choices.numbers.accessWithinM).toBe('492')
    const asked = requestOfChoices(
      { ...choices, numbers: { ...choices.numbers, accessWithinM: '500' } },
      'us',
    )
    expect('request' in asked && asked.request.accessWithinM).toBeCloseTo(152.4, 6)
  })

  it('say which field is wrong and why, all at once', () => {
    const asked = requestOfChoices(
      changed({ ratingMarginPct: 'much', lowVolts120: '127' }),
      'metric',
    )
    expect(asked).toEqual({
      faults: { ratingMarginPct: 'Give a number.', lowVolts120: 'Must be below the high limit.' },
    })
  })

  it('hand on what the request itself does not allow', () => {
    const asked = requestOfChoices(changed({ studyYears: '400' }), 'metric')
    expect('faults' in asked && asked.faults.studyYears).toBeTruthy()
  })
})
