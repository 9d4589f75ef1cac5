import { expect, it } from 'vitest'
import type { DemoRole } from '#contract/account.ts'
import { ACTING_ROLE_HEADER } from '#contract/actor.ts'
import { buildRequest } from '#contract/build-request.ts'
import type { Job } from '#contract/jobs.ts'
import { readAnswer } from '#contract/read-answer.ts'
import type { Route, RouteInput, RouteOutput } from '#contract/route.ts'
import { routes } from '#contract/routes.ts'
import { layersOfFeeder } from '../../server/layer-files/layers-of-feeder.ts'
import type { Place } from '../../server/store/place.ts'
import { verifyRecord } from '../../server/store/verify-record.ts'
import { temporaryPlaces } from '../store/temporary-places.ts'
import { enterDemo } from '../support/enter-demo.ts'
import { smallFeeder } from '../support/small-feeder.ts'
import { addressOf, type RunningProgram, runServer } from './run-program.ts'

const { freshPlace } = temporaryPlaces()

const FEEDER = 'field'
const ENTRIES = 200
const KILL_AFTER_ENTRIES = 60
const DEVICES = 3

type Call = <R extends Route>(route: R, input: RouteInput<R>) => Promise<RouteOutput<R>>

function run({ dataFolder, databaseUrl = '' }: Place): RunningProgram {
  return runServer({ CROSSARM_DATA: dataFolder, DATABASE_URL: databaseUrl })
}

async function callAs(address: string, role: DemoRole): Promise<Call> {
  const cookie = await enterDemo(address, role)
  return async (route, input) => {
    const headers = { cookie, [ACTING_ROLE_HEADER]: role }
    const { path, ...request } = buildRequest(route, input, headers)
    return readAnswer(route, await fetch(address + path, request))
  }
}

async function jobInTheField(address: string): Promise<Job> {
  const [planner, supervisor] = await Promise.all([
    callAs(address, 'planner'),
    callAs(address, 'supervisor'),
  ])
  await planner(routes.takeInFeeder, {
    body: { layers: layersOfFeeder(smallFeeder({ id: FEEDER })) },
  })
  const origin = { kind: 'by hand' as const, jobKind: 'inspection' as const, poles: ['P2'] }
  let job = await planner(routes.draftJob, {
    params: { feederId: FEEDER },
    body: { title: 'Look at P2', origin },
  })
  for (const to of ['approved', 'issued', 'in the field'] as const) {
    const body = { version: job.version, to }
    job = await supervisor(routes.moveJob, { params: { jobId: job.id }, body })
  }
  return job
}

/** What was entered on one device, in its order. */
const remarksOf = (device: number) =>
  Array.from({ length: ENTRIES }, (_, index) => ({
    id: `device-${device}-${index}`,
    at: new Date(Date.UTC(2026, 4, 1, 9, 0, index)).toISOString(),
    pole: 'P2',
    kind: 'remark' as const,
    text: `Remark ${index} of device ${device}.`,
  }))

it('has every entry that it acknowledged after it was killed, and none twice when all come again', async () => {
  const place = await freshPlace('killed-in-the-field')
  const first = run(place)
  const address = await addressOf(first)
  const job = await jobInTheField(address)
  const crew = await callAs(address, 'crew')
  const params = { jobId: job.id }
  const acknowledged = new Set<string>()
  const sendAll = async (device: number) => {
    for (const entry of remarksOf(device)) {
      const sent = await crew(routes.sendEntries, { params, body: { entries: [entry] } }).catch(
        () => null,
      )
      if (!sent) return
      expect(sent.outcomes).toEqual([{ id: entry.id, outcome: 'kept' }])
      acknowledged.add(entry.id)
      if (acknowledged.size === KILL_AFTER_ENTRIES) first.child.kill('SIGKILL')
    }
  }
  const devices = Array.from({ length: DEVICES }, (_, index) => index + 1)
  await Promise.all(devices.map(sendAll))
  expect(await first.ended).toBe('SIGKILL')
  expect(acknowledged.size).toBeGreaterThanOrEqual(KILL_AFTER_ENTRIES)

  const second = run(place)
  const again = await callAs(await addressOf(second), 'crew')
  const before = (await again(routes.getJob, { params })).entries.map(({ entry }) => entry.id)
  expect(before).toEqual(expect.arrayContaining([...acknowledged]))
  expect(before.length - acknowledged.size).toBeLessThanOrEqual(DEVICES)
  for (const device of devices) {
    const entries = remarksOf(device)
    const { outcomes } = await again(routes.sendEntries, { params, body: { entries } })
    expect(outcomes.map(({ outcome }) => outcome)).toEqual(
      entries.map(({ id }) => (before.includes(id) ? 'had already' : 'kept')),
    )
  }
  const after = (await again(routes.getJob, { params })).entries.map(({ entry }) => entry.id)
  const all = devices.flatMap((device) => remarksOf(device).map(({ id }) => id))
  expect(after.toSorted()).toEqual(all.toSorted())
  second.child.kill('SIGTERM')
  await second.ended
  const { chain, database, rows } = await verifyRecord(place)
  expect([chain.fault, database, rows]).toEqual([null, [], []])
}, 240_000)
