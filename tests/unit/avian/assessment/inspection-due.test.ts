import { describe, expect, it } from 'vitest'
import {
  inspectionDue,
  isInspectionOverdue,
} from '../../../../server/domain/avian/assessment/inspection-due.ts'
import { BirdSettings } from '../../../../server/domain/avian/bird-settings.ts'
import { item } from '../measures/made-pole-top.ts'

describe('when an item must be looked at again', () => {
  it('is its interval after it went up, and after each look from then on', () => {
    const cover = item('cutout cover', { on: '2021-04-10', inspectEveryMonths: 36 })
    expect(inspectionDue(cover)).toEqual({ dueOn: '2024-04-10' })
    expect(inspectionDue({ ...cover, inspectedOn: '2024-02-01' })).toEqual({ dueOn: '2027-02-01' })
  })

  it('is the last day of a shorter month', () => {
    const cover = item('cutout cover', { on: '2023-08-31', inspectEveryMonths: 6 })
    expect(inspectionDue(cover)).toEqual({ dueOn: '2024-02-29' })
  })

  it('goes by the interval of the utility where the item has none', () => {
    const settings = BirdSettings.parse({ inspectEveryMonths: 60 })
    expect(inspectionDue(item('cutout cover'), settings)).toEqual({ dueOn: '2025-05-01' })
    expect(inspectionDue(item('cutout cover'))).toBeNull()
  })

  it('is asked of nothing that is planned, removed or known to have failed', () => {
    const states = (['planned', 'removed', 'failed'] as const).map((state) =>
      inspectionDue(item('cutout cover', { state, inspectEveryMonths: 12 })),
    )
    expect(states).toEqual([null, null, null])
  })

  it('is late on the day after, not on the day itself', () => {
    const cover = item('cutout cover', { on: '2021-04-10', inspectEveryMonths: 36 })
    expect(isInspectionOverdue(cover, '2024-04-10')).toBe(false)
    expect(isInspectionOverdue(cover, '2024-04-11')).toBe(true)
  })
})
