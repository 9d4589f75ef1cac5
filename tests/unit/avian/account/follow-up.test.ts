import { describe, expect, it } from 'vitest'
import { followUpRule, followUpSteps, nextStep } from '#domain/avian/account/follow-up.ts'
import type { Incident } from '#domain/feeder/birds.ts'

const find = (more: Partial<Incident> = {}): Incident => ({
  id: 'find-1',
  at: [-107, 43],
  pole: 'P-1',
  foundOn: '2026-03-01',
  species: 'golden eagle',
  cause: 'confirmed electrocution',
  ...more,
})
const EAGLE = followUpRule('golden eagle').days

describe('follow-up of a find', () => {
  it('proposes a visit in 3 days and a fix in 30 for an eagle, said to be an assumption', () => {
    const steps = followUpSteps(find(), EAGLE, '2026-03-02')
    expect(steps.map(({ step, dueOn }) => [step, dueOn])).toEqual([
      ['visit', '2026-03-04'],
      ['fix', '2026-03-31'],
      ['inspection', '2026-04-30'],
      ['neighbours', '2026-04-30'],
    ])
    expect(followUpRule('Bald eagle').sureness).toBe('assumption')
  })

  it('gives a hawk two weeks and three months', () => {
    const { days } = followUpRule('red-tailed hawk')
    const hawk = find({ species: 'red-tailed hawk' })
    const [visit, fix] = followUpSteps(hawk, days, '2026-03-02')
    expect([visit?.dueOn, fix?.dueOn]).toEqual(['2026-03-15', '2026-05-30'])
  })

  it('goes by what the utility set', () => {
    const set = { visit: 1, fix: 10, inspection: 5, neighbours: 20 }
    const rule = followUpRule('golden eagle', { followUpEagle: set })
    expect(rule).toMatchObject({ days: set, sureness: 'set by the utility' })
    expect(followUpRule('raven', { followUpEagle: set }).days.visit).toBe(14)
  })

  it('counts the inspection from the fix, once that is done', () => {
    const steps = followUpSteps(find({ fixedOn: '2026-03-10' }), EAGLE, '2026-03-12')
    expect(steps.find(({ step }) => step === 'inspection')?.dueOn).toBe('2026-04-09')
  })

  it('tells kept from late, and overdue from still to come', () => {
    const steps = followUpSteps(
      find({ visitedOn: '2026-03-03', fixedOn: '2026-04-02' }),
      EAGLE,
      '2026-05-01',
    )
    expect(steps.map(({ state }) => state)).toEqual(['kept', 'late', 'waiting', 'overdue'])
    expect(nextStep(steps)?.step).toBe('neighbours')
  })

  it('is not overdue on the day itself', () => {
    const [visit] = followUpSteps(find(), EAGLE, '2026-03-04')
    expect(visit?.state).toBe('waiting')
  })

  it('asks for no fix of a pole where a bird flew into a wire', () => {
    const steps = followUpSteps(find({ cause: 'collision' }), EAGLE, '2026-03-02')
    expect(steps.map(({ step }) => step)).toEqual(['visit'])
  })

  it('keeps a date that somebody wrote down whatever the rule says', () => {
    const steps = followUpSteps(
      find({ cause: 'collision', fixDueOn: '2026-06-01' }),
      EAGLE,
      '2026-03-02',
    )
    expect(steps[1]).toMatchObject({ step: 'fix', dueOn: '2026-06-01', isProposed: false })
  })
})
