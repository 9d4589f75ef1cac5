import { describe, expect, it } from 'vitest'
import { SHIPPED_SEQUENCES } from '#domain/jobs/sequences/shipped-sequences.ts'
import { listsOfStep } from '../../../web/crew/work/lists-of-step.ts'

const steps = SHIPPED_SEQUENCES.flatMap((sequence) => sequence.steps)
const listsOf = (id: string) =>
  steps.filter((step) => step.id === id).map((step) => listsOfStep(step))

describe('the lists of the job that stand in a step', () => {
  it('are the settings where they are entered, compared or read back', () => {
    expect(listsOf('settings').length).toBeGreaterThan(1)
    for (const lists of listsOf('settings')) expect(lists).toContain('settings')
    expect(listsOf('settings-found')).toEqual([['settings']])
  })

  it('are the rating where the nameplate of the new unit is compared', () => {
    expect(listsOf('nameplate').length).toBeGreaterThan(0)
    for (const lists of listsOf('nameplate')) expect(lists).toEqual(['rating'])
  })

  it('are the bird work where covers and perches are put on', () => {
    for (const lists of listsOf('covers')) expect(lists).toEqual(['measures'])
    const lists = steps.filter(({ text }) => /\blist\b/.test(text)).map((step) => listsOfStep(step))
    expect(lists.length).toBeGreaterThan(2)
    for (const each of lists) expect(each).toContain('measures')
  })

  it('are none where a step speaks of nothing on them', () => {
    expect(listsOfStep({ text: 'Test it dead.', asks: [] })).toEqual([])
    expect(
      listsOfStep({ text: 'Put the control in manual while settings go in.', asks: [] }),
    ).toEqual([])
  })
})
