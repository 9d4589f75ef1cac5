import { describe, expect, it } from 'vitest'
import type { JobSummary } from '#contract/jobs.ts'
import type { Position } from '#domain/feeder/geometry.ts'
import { listJobs, todaysJobs } from '../../../web/crew/jobs/list-jobs.ts'

const TODAY = '2026-11-28'
const job = (id: string, more: Partial<JobSummary> = {}): JobSummary =>
  ({
    id,
    feederId: 'f',
    title: id,
    poles: [id],
    state: 'issued',
    stateSince: '2026-11-20T08:00:00Z',
    ...more,
  }) as JobSummary

const AT: Readonly<Record<string, Position>> = {
  near: [-107, 43.001],
  far: [-107, 43.1],
  late: [-107, 43.05],
}
const poleAt = (_feeder: string, pole: string) => AT[pole]
const idsOf = (list: readonly { readonly job: JobSummary }[]) => list.map(({ job: { id } }) => id)

describe('the crew’s jobs', () => {
  const jobs = [
    job('far', { dueOn: '2026-11-29' }),
    job('elsewhere'),
    job('late', { dueOn: '2026-11-20', state: 'in the field' }),
    job('near', { dueOn: '2026-12-24' }),
  ]

  it('come late and due first where the device does not know its place', () => {
    const { toDo } = listJobs(jobs, poleAt, null, TODAY)
    expect(idsOf(toDo)).toEqual(['late', 'far', 'near', 'elsewhere'])
    expect(toDo.every(({ way }) => way === null)).toBe(true)
  })

  it('come nearest first where it does; those whose poles are not on the device come last', () => {
    const { toDo } = listJobs(jobs, poleAt, [-107, 43], TODAY)
    expect(idsOf(toDo)).toEqual(['near', 'late', 'far', 'elsewhere'])
    expect(toDo[0]?.way?.bearingDeg).toBeCloseTo(0, 6)
  })

  it('of a round count from its nearest pole', () => {
    const round = job('round', { poles: ['far', 'near'] })
    const [first] = listJobs([round], poleAt, [-107, 43], TODAY).toDo
    expect(first?.way?.distanceM).toBeLessThan(120)
  })

  it('hold only what a crew can act on, apart from what was sent back and what is done', () => {
    const all = (
      ['drafted', 'approved', 'issued', 'in the field', 'work done', 'closed', 'returned'] as const
    ).map((state) => job(state, { state, poles: [] }))
    const { toDo, returned, done } = listJobs(all, poleAt, null, TODAY)
    expect(new Set(idsOf(toDo))).toEqual(new Set(['issued', 'in the field']))
    expect(idsOf(returned)).toEqual(['returned'])
    expect(idsOf(done)).toEqual(['work done'])
  })

  it('of the day are those begun, and those issued that are due up to today', () => {
    const all = [
      job('begun', { state: 'in the field', dueOn: '2026-12-24' }),
      job('late', { dueOn: '2026-11-20' }),
      job('today', { dueOn: TODAY }),
      job('tomorrow', { dueOn: '2026-11-29' }),
      job('without a day'),
      job('draft', { state: 'drafted', dueOn: TODAY }),
    ]
    expect(todaysJobs(all, TODAY).map(({ id }) => id)).toEqual(['begun', 'late', 'today'])
  })
})
