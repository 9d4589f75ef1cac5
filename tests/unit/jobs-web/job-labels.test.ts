import { describe, expect, it } from 'vitest'
import { bankInWords } from '#domain/feeder/bank-in-words.ts'
import type { JobKind } from '#domain/jobs/job-kind.ts'
import { jobLabels, labelsInWords } from '../../../web/jobs/paper/job-labels.ts'
import { feederWithSampleBank, samplePlan } from '../jobs/sample-plan.ts'

describe('labels of a job', () => {
  it.each([
    ['set a bank', samplePlan('set a bank')],
    ['change out a bank', samplePlan('change out a bank', feederWithSampleBank())],
    ['remove a bank', samplePlan('remove a bank', feederWithSampleBank())],
    ['retrofit round', samplePlan('retrofit round')],
  ] satisfies (readonly [JobKind, unknown])[])(
    'of a job to %s are those that its kit asks for',
    (_kind, plan) => {
      const asked = plan.kit
        .map(({ what }) => /^Label of (?:pole (\S+) with|the bank: (.*))/.exec(what))
        .flatMap((found) => found?.[1] ?? found?.[2] ?? [])
      const printed = jobLabels(plan, ['P2']).map(({ title }) => title)
      expect(asked.length).toBeGreaterThan(0)
      expect(printed).toEqual(asked)
    },
  )

  it('say how many there are', () => {
    expect(labelsInWords(jobLabels(samplePlan('retrofit round'), ['P2']))).toBe(
      'Labels for one pole',
    )
    expect(labelsInWords(jobLabels(samplePlan('set a bank'), ['P1', 'P2']))).toBe(
      'Labels for 2 poles and the bank',
    )
  })
})

describe('a bank in words', () => {
  it.each([
    ['Anvil regulators', 'Anvil regulators, pole S-144'],
    ['Regulators at S-144', 'Regulators at S-144'],
    [undefined, 'Regulator bank, pole S-144'],
  ])('named %s is %s', (name, words) => {
    expect(bankInWords({ name, pole: 'S-144' })).toBe(words)
  })
})
