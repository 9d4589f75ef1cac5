import { describe, expect, it } from 'vitest'
import { JOB_KINDS, type JobKind } from '#domain/jobs/job-kind.ts'
import { leftUnsafe } from '#domain/jobs/left-unsafe.ts'
import { IN_SERVICE, NOT_YET_SET, UNDER_BYPASS, type UnitState } from '#domain/jobs/unit-state.ts'

/** Off the line, tagged, its drive inoperative. */
const BYPASSED: UnitState = { ...UNDER_BYPASS, isDriveOperative: false }

const left = (kind: JobKind, state: UnitState, start: UnitState = IN_SERVICE) =>
  leftUnsafe(kind, state, start).join('; ')

describe('a unit may be left', () => {
  /** How it may stand at the end, by kind of job; any other of the three is refused. */
  const ENDS: readonly (readonly [JobKind, UnitState])[] = [
    ['set a bank', IN_SERVICE],
    ['change out a bank', IN_SERVICE],
    ['change settings', IN_SERVICE],
    ['return a bank to service', IN_SERVICE],
    ['take a bank out of service', BYPASSED],
    ['remove a bank', NOT_YET_SET],
    ['retrofit round', IN_SERVICE],
    ['inspection', IN_SERVICE],
  ]

  it.each(ENDS)('to %s only as that job says', (kind, end) => {
    for (const state of [IN_SERVICE, BYPASSED, NOT_YET_SET]) {
      expect(left(kind, state) === '').toBe(state === end)
    }
  })

  it('as is said for each kind of job', () => {
    expect(ENDS.map(([kind]) => kind).toSorted()).toEqual([...JOB_KINDS].toSorted())
  })

  it('bypassed only with its neutral-side switch open and its drive inoperative', () => {
    const take = 'take a bank out of service'
    expect(left(take, { ...BYPASSED, neutralSide: 'solid' })).toBe('')
    expect(left(take, { ...BYPASSED, neutralSide: 'closed' })).toBe(
      'its neutral-side switch is still closed',
    )
    expect(left(take, UNDER_BYPASS)).toBe('its tap drive is not made inoperative')
    expect(left(take, { ...BYPASSED, isBypassClosed: false, isJumperOn: true })).toContain(
      'its bypass is not closed',
    )
  })

  it('as it was found where the job is on no bank, whatever that was', () => {
    expect(left('inspection', BYPASSED, UNDER_BYPASS)).toBe('')
    expect(left('inspection', IN_SERVICE, UNDER_BYPASS)).toContain('as it was found')
  })

  it('after no job with grounds on', () => {
    for (const [kind, end] of ENDS) {
      expect(left(kind, { ...end, isGrounded: true })).toContain('grounds are still on')
    }
  })
})
