import { describe, expect, it } from 'vitest'
import type { ExpectedCase, JobPlan } from '#domain/jobs/job-plan.ts'
import { readingParts } from '../../../web/crew/jobs/reading-parts.ts'
import { PLAN, REGULATOR } from '../crew-work/made-job.ts'

const casesOf = (caseId: string): ExpectedCase[] => [{ caseId, caseName: caseId, readings: [] }]
const planOf = (state: 'in service' | 'bypassed', found?: ExpectedCase[]): JobPlan => ({
  ...PLAN,
  bank: {
    ...PLAN.bank,
    regulator: { ...REGULATOR, bandCentreV: 123 },
    standing: { ...REGULATOR, state },
    neutralV: 7200,
    loopOhm: 0.1,
  },
  expected: casesOf('planned'),
  ...(found && { expectedFound: found }),
})

describe('what meters should show', () => {
  it('before the work is worked out with the bank as it stands, and after it as planned', () => {
    const parts = readingParts(planOf('in service', casesOf('found')))
    expect(parts.map(({ id, bank }) => [id, bank.regulator.bandCentreV])).toEqual([
      ['found', REGULATOR.bandCentreV],
      ['planned', 123],
    ])
    expect(parts.map(({ isAtNeutral }) => isAtNeutral)).toEqual([false, false])
  })

  it('at a bank that hangs bypassed is worked out at neutral, with no tap to choose', () => {
    const [found] = readingParts(planOf('bypassed', casesOf('found')))
    expect(found?.isAtNeutral).toBe(true)
    expect(found?.bank.regulator.state).toBeUndefined()
  })

  it('is one part where the plan says one thing of all of the work', () => {
    expect(readingParts(planOf('in service')).map(({ id }) => id)).toEqual(['planned'])
    expect(readingParts({ ...PLAN, bank: undefined })).toEqual([])
  })
})
