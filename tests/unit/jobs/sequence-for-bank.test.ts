import { describe, expect, it } from 'vitest'
import { sequenceFor } from '#domain/jobs/sequence-for.ts'
import { sequenceForBank } from '#domain/jobs/sequence-for-bank.ts'
import { StepSequence } from '#domain/jobs/step-sequence.ts'
import type { UnitAction } from '#domain/jobs/unit-action.ts'
import { step } from './machine-plan.ts'

const order = (id: string, more: Partial<StepSequence> = {}): StepSequence =>
  StepSequence.parse({
    id,
    name: id,
    forKinds: ['change out a bank'],
    source: '',
    steps: [step('start')],
    ...more,
  })
const acting = (...actions: readonly UnitAction[]) => ({
  steps: actions.map((action, index) => step(`s${index}`, { action, each: 'unit' })),
})

describe('the steps for a bank', () => {
  const both = order('both', {
    steps: [
      step('always'),
      step('switch', { onlyWith: 'a neutral-side switch' }),
      step('solid', { onlyWith: 'no neutral-side switch' }),
    ],
  })
  const idsFor = (...bank: Parameters<typeof sequenceForBank>[1][]) =>
    sequenceForBank(both, bank[0]).steps.map(({ id }) => id)

  it('with a neutral-side switch are without those for a bank that has none', () => {
    expect(idsFor({ neutralSide: 'switched' })).toEqual(['always', 'switch'])
  })

  it('solidly on the neutral, said or left out, are without those for a switch', () => {
    expect(idsFor({ neutralSide: 'solid' })).toEqual(['always', 'solid'])
    expect(idsFor({})).toEqual(['always', 'solid'])
  })

  it('where none stands are without either', () => {
    expect(idsFor(undefined)).toEqual(['always'])
  })

  it('leave the order itself as it is', () => {
    expect(both.steps).toHaveLength(3)
    expect(sequenceForBank(order('plain'), {})).toEqual(order('plain'))
  })
})

describe('the order of steps for a bank as it stands', () => {
  const items = (...sequences: readonly StepSequence[]) =>
    sequences.map((sequence) => ({ sequence }))
  const idFor = (all: readonly StepSequence[], bankAtStart?: 'in service' | 'bypassed') =>
    sequenceFor('change out a bank', items(...all), [], bankAtStart)?.sequence.id

  const inService = order('b-in-service', { bankAtStart: 'in service' })
  const bypassed = order('c-bypassed', { bankAtStart: 'bypassed' })
  const either = order('a-either')

  it('is the one that begins so, before one that may begin at either', () => {
    expect(idFor([either, inService, bypassed], 'in service')).toBe('b-in-service')
    expect(idFor([either, inService, bypassed], 'bypassed')).toBe('c-bypassed')
  })

  it('is one that works nothing at the bank where there is no other', () => {
    expect(idFor([either, inService], 'bypassed')).toBe('a-either')
  })

  it('is missing where there are only orders for the other standing', () => {
    expect(idFor([inService], 'bypassed')).toBeUndefined()
    expect(idFor([bypassed], 'in service')).toBeUndefined()
  })

  it('is told by the first switch where an older order does not say it', () => {
    const oldOut = order('old-out', acting('run to neutral', 'close the bypass'))
    const oldBack = order(
      'old-back',
      acting('close the neutral-side switch', 'close the source switch'),
    )
    expect(idFor([oldOut, oldBack], 'in service')).toBe('old-out')
    expect(idFor([oldOut, oldBack], 'bypassed')).toBe('old-back')
    expect(idFor([oldOut], 'bypassed')).toBeUndefined()
  })

  it('is any of them where nobody says how it stands', () => {
    expect(idFor([bypassed])).toBe('c-bypassed')
  })

  it('does not matter where a bank is set, since none stands there yet', () => {
    const set = order('set', { forKinds: ['set a bank'], ...acting('set the unit') })
    expect(sequenceFor('set a bank', items(set), [], 'bypassed')?.sequence.id).toBe('set')
  })
})
