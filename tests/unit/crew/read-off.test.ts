import { describe, expect, it } from 'vitest'
import type { ExpectedCase } from '#domain/jobs/job-plan.ts'
import { EMPTY_READ_OFF, phasesOf, readOffOf } from '../../../web/crew/jobs/read-off-draft.ts'

const near: ExpectedCase = {
  caseId: 'peak',
  caseName: 'Peak',
  readings: (['A', 'B', 'C'] as const).map((phase, index) => ({
    phase,
    tap: index + 3,
    sourceV: 7000,
    loadV: 7200,
    sourceVolts120: 116.7,
    loadVolts120: 120,
    relayVolts: 120,
    amps: 40,
  })),
}
const phases = phasesOf('ABC')

describe('what the crew reads off', () => {
  it('is nothing before a figure is typed', () => {
    expect(readOffOf(EMPTY_READ_OFF, phases, near)).toEqual({ kind: 'nothing yet' })
    expect(readOffOf({ amps: { A: '  ' }, taps: {} }, phases, near).kind).toBe('nothing yet')
  })

  it('takes the taps of the case where none was chosen, and leaves out amps that were not read', () => {
    expect(readOffOf({ amps: { A: '42,5' }, taps: { B: -2 } }, phases, near)).toEqual({
      kind: 'read',
      readOff: { caseId: 'peak', amps: { A: 42.5 }, taps: { A: 3, B: -2, C: 5 } },
    })
  })

  it('says which phase cannot be read', () => {
    expect(readOffOf({ amps: { B: '4o' }, taps: {} }, phases, near)).toMatchObject({
      kind: 'faulty',
      phase: 'B',
    })
    expect(readOffOf({ amps: { C: '-4' }, taps: {} }, phases, near).kind).toBe('faulty')
    expect(readOffOf({ amps: { C: '20000' }, taps: {} }, phases, near).kind).toBe('faulty')
  })
})
