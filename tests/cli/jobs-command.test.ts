import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { JobHead, JobSummary } from '#contract/jobs.ts'
import { openStore } from '../../server/store/open-store.ts'
import { smallFeeder } from '../support/small-feeder.ts'
import { lookPlan, stepDone } from '../support/small-job.ts'
import { buildCli, runCli } from './run-cli.ts'

const STAMP = { at: '2026-05-01T08:00:00.000Z', actor: { id: 'robin', role: 'crew' } } as const

let data = ''
beforeAll(async () => {
  await buildCli()
  data = await mkdtemp(join(tmpdir(), 'crossarm-jobs-'))
  const store = await openStore({ dataFolder: data })
  await store.feeders.add(smallFeeder(), 'added', STAMP)
  const add = (id: string, head: Partial<JobHead>, poles: readonly string[]) =>
    store.jobs.add(
      {
        ...{
          id,
          feederId: 'small',
          feederVersion: 1,
          plan: lookPlan(poles),
          stepsAll: 2 * poles.length,
        },
        head: JobHead.parse({ title: 'Look at the creek', ...head }),
        origin: { kind: 'by hand', jobKind: 'inspection', poles: [...poles] },
      },
      STAMP,
    )
  await add('later', { dueOn: '2026-07-01' }, ['P1', 'P2', 'P3', 'P4', 'P5'])
  await add('sooner', { title: 'Look at the bridge', dueOn: '2026-06-01', crew: 'north' }, ['P2'])
  await store.jobs.addEntries(
    { id: 'sooner', feederId: 'small' },
    [stepDone('e1', 'P2', 'briefing')],
    STAMP,
  )
  const progress = { stepsDone: 10, stepsLeftOut: 1, stepsAll: 10, deviations: 0 }
  const closed = { state: 'closed', reason: '', feederVersionAfter: null, progress } as const
  await store.jobs.move('later', 1, closed, STAMP)
  await store.close()
}, 180_000)
afterAll(() => rm(data, { recursive: true, force: true }))

const jobs = (...args: string[]) => runCli('jobs', ...args, '--data', data)

describe('jobs', () => {
  it('are listed with the day they are due, their state, poles and steps done', async () => {
    const { code, out, err } = await jobs()
    expect([code, err]).toEqual([0, ''])
    const lines = out
      .trimEnd()
      .split('\n')
      .map((line) => line.split(/ {2,}/))
    expect(lines).toEqual([
      ['due', 'state', 'title', 'kind', 'feeder', 'poles', 'steps', 'crew'],
      ['2026-06-01', 'drafted', 'Look at the bridge', 'inspection', 'small', 'P2', '1/2', 'north'],
      [
        ...['2026-07-01', 'closed', 'Look at the creek', 'inspection', 'small'],
        ...['P1 P2 P3 P4 and 1 more', '9/10, 1 left out', '-'],
      ],
    ])
  })

  it('are given as JSON that the contract knows, only the open ones where that is asked', async () => {
    const { out } = await jobs('--json', '--open', '--feeder', 'small')
    const listed = JobSummary.array().parse(JSON.parse(out))
    expect(listed.map(({ id }) => id)).toEqual(['sooner'])
    expect(listed[0]).toMatchObject({ stepsDone: 1, stepsAll: 2, deviations: 0, poles: ['P2'] })
  })

  it('of a feeder that is not there are an error', async () => {
    const { code, out, err } = await jobs('--feeder', 'nowhere')
    expect([code, out]).toEqual([1, ''])
    expect(err).toContain('There is no feeder "nowhere" in the record.')
  })

  it('take no words besides options', async () => {
    expect((await jobs('all')).code).toBe(2)
  })
})
