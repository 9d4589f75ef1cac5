import { randomUUID } from 'node:crypto'
import { beforeEach, expect, it } from 'vitest'
import { JobHead } from '#contract/jobs.ts'
import type { JobPlan } from '#domain/jobs/job-plan.ts'
import { openThreads } from '../../server/background/threads.ts'
import type { Job } from '../../server/services/job-ports.ts'
import { prepareMove } from '../../server/services/move-job.ts'
import type { Stamp } from '../../server/services/ports.ts'
import { verifyRecord } from '../../server/store/verify-record.ts'
import { workerFile } from '../background/temporary-work.ts'
import { bankedFeeder } from '../support/banked-feeder.ts'
import { LEFT_AFTER_LOOK, lookPlan } from '../support/small-job.ts'
import { stampAt, temporaryStore } from './temporary-store.ts'

const temporary = temporaryStore()
const SUPERVISOR = { id: 'sam', role: 'supervisor' } as const
const DONE = { state: 'work done', reason: '', feederVersionAfter: null } as const

let job: Job
beforeEach(async () => {
  const { feeders, jobs, asLeft } = temporary.store
  const feeder = bankedFeeder('small')
  await feeders.add(feeder, 'added', stampAt(0))
  const [bank] = feeder.equipment
  if (bank?.kind !== 'regulator') throw new Error('Expected a bank.')
  const set = { ...bank, bandCentreV: 123 }
  const plan: JobPlan = {
    ...lookPlan(['P3']),
    kind: 'change settings',
    bank: { regulator: set, standing: bank, neutralV: 7200, loopOhm: 0.1 },
  }
  const origin = { kind: 'by hand', jobKind: 'change settings', poles: ['P3'] } as const
  const added = await jobs.add(
    {
      ...{ id: 'j1', feederId: 'small', feederVersion: 1, plan, stepsAll: 2 },
      head: JobHead.parse({ title: 'Set the bank' }),
      origin: { ...origin, poles: ['P3'] },
    },
    stampAt(1),
  )
  await asLeft.put(added, 0, LEFT_AFTER_LOOK, stampAt(2))
  await jobs.move('j1', 1, DONE, stampAt(3))
  const done = await jobs.find('j1')
  if (!done) throw new Error('Expected the job.')
  job = done
})

/** With the threads of the server, and how often they were asked what was built. */
async function closing(between: (stamp: Stamp) => Promise<unknown>) {
  const threads = openThreads(workerFile, 1)
  let built = 0
  const build: typeof threads.build = (input) => {
    built += 1
    return threads.build(input)
  }
  const { store } = temporary
  const ports = {
    ...{ store, threads: { ...threads, build } },
    ...{ clock: () => stampAt(9).at, newId: randomUUID },
  }
  try {
    const close = await prepareMove(ports, SUPERVISOR, 'j1', { version: job.version, to: 'closed' })
    await between(stampAt(5))
    return { closed: await close(), built }
  } finally {
    await threads.close()
  }
}

it('is closed on what was worked out where nothing changed meanwhile', async () => {
  const { closed, built } = await closing(async () => undefined)
  expect(closed).toMatchObject({ state: 'closed', feederVersionAfter: 2 })
  expect(closed.closingNotes?.join(' ')).toContain('No settings are recorded as left')
  expect(built).toBe(1)
  const { rows, chain } = await verifyRecord(temporary.options)
  expect([rows, chain.fault]).toEqual([[], null])
})

it('is worked out anew where the feeder changed between, and loses nothing of that', async () => {
  const feeder = bankedFeeder('small')
  const { closed, built } = await closing((stamp) =>
    temporary.store.feeders.add(
      { ...feeder, header: { ...feeder.header, name: 'Named anew' } },
      'added',
      stamp,
    ),
  )
  expect([closed.feederVersionAfter, built]).toEqual([3, 2])
  const kept = (await temporary.store.feeders.find('small'))?.feeder
  expect(kept?.header.name).toBe('Named anew')
  expect(kept?.equipment).toMatchObject([{ id: 'R3', bandCentreV: 123 }])
})

it('is refused where the bank went between, and nothing is written', async () => {
  const feeder = bankedFeeder('small')
  const without = {
    ...feeder,
    poles: feeder.poles.slice(0, 3),
    spans: feeder.spans.slice(0, 2),
    loads: feeder.loads.slice(0, 2),
    equipment: [],
  }
  const refused = closing((stamp) => temporary.store.feeders.add(without, 'added', stamp))
  await expect(refused).rejects.toThrow('which the feeder no longer has')
  expect(await temporary.store.jobs.find('j1')).toEqual(job)
  expect((await temporary.store.feeders.find('small'))?.version).toBe(2)
})
