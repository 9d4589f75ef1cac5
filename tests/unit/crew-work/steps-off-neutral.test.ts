import { describe, expect, it } from 'vitest'
import type { Verdict } from '#domain/jobs/judge-reading.ts'
import { Step } from '#domain/jobs/step-sequence.ts'
import {
  acrossBypassInWords,
  signsSay,
  stepsOffNeutral,
} from '../../../web/crew/work/steps-off-neutral.ts'

const NEUTRAL_V = 7200

const step = Step.parse({
  id: 'prove',
  text: 'Prove neutral.',
  asks: [
    {
      ...{ id: 'indicator', what: 'Indicator', kind: 'number', unit: 'steps' },
      judge: 'position indicator at neutral',
    },
    { id: 'lamp', what: 'Lamp steady', kind: 'yes or no', judge: 'neutral lamp steady' },
    {
      ...{ id: 'volts', what: 'S to L', kind: 'number', unit: 'V' },
      judge: 'volts across at neutral',
    },
    {
      ...{ id: 'meter', what: 'Finest reading', kind: 'number', unit: 'V' },
      judge: 'resolution of the meter',
    },
  ],
})

const verdict = (askId: string, said: Verdict['verdict']): Verdict => ({
  askId,
  verdict: said,
  words: '',
  isStop: said === 'bad',
})

describe('how far a unit stands off neutral', () => {
  it('goes by volts and position, whichever is further', () => {
    expect(stepsOffNeutral(step, {}, NEUTRAL_V)).toBeNull()
    expect(stepsOffNeutral(step, { indicator: -3 }, NEUTRAL_V)).toBe(3)
    // A step is 5/8 % of the volts (IEEE C57.15, from memory): 45 V at 7200 V.
    expect(stepsOffNeutral(step, { indicator: 0, volts: 90 }, NEUTRAL_V)).toBeCloseTo(2, 9)
    expect(stepsOffNeutral(step, { indicator: 4, volts: 90 }, NEUTRAL_V)).toBe(4)
  })

  it('is said only as far as the signs agree', () => {
    expect(signsSay(step, [])).toBe('nothing')
    expect(signsSay(step, [verdict('meter', 'good')])).toBe('nothing')
    expect(signsSay(step, [verdict('indicator', 'good'), verdict('lamp', 'good')])).toBe('neutral')
    expect(signsSay(step, [verdict('indicator', 'good'), verdict('volts', 'bad')])).toBe(
      'not the same',
    )
    expect(signsSay(step, [verdict('indicator', 'bad'), verdict('meter', 'good')])).toBe(
      'off neutral',
    )
  })

  it('is told in steps where a tap can make it, and in volts alone where none can', () => {
    expect(acrossBypassInWords(3, NEUTRAL_V, null)).toMatch(/^3 steps off neutral, 135 V would/)
    expect(acrossBypassInWords(3, NEUTRAL_V, 0.1)).toMatch(/0\.1 Ω would let about .* A flow\.$/)
    expect(acrossBypassInWords(0.98, NEUTRAL_V, null)).toMatch(/^About 1 step off neutral/)
    expect(acrossBypassInWords(160, NEUTRAL_V, null)).not.toMatch(/step/)
  })
})
