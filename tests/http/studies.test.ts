import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { RouteInput } from '#contract/route.ts'
import { routes } from '#contract/routes.ts'
import type { StudyEvent } from '#contract/studies.ts'
import { siteFeeder } from '#domain/siting/site-feeder.ts'
import { SiteRequest } from '#domain/siting/site-request.ts'
import { layersOfFeeder } from '../../server/layer-files/layers-of-feeder.ts'
import { smallFeeder } from '../support/small-feeder.ts'
import { readEvents } from './read-events.ts'
import { COORDINATOR, CREW, PLACE, SMALL, startTestServer, type TestServer } from './test-server.ts'

/** Enough places for two banks that a study cannot end before it is cancelled. */
const LONG = 'long'
const LONG_POLES = 260

let server: TestServer
beforeAll(async () => {
  server = await startTestServer()
  const layers = layersOfFeeder(smallFeeder({ id: LONG, poles: LONG_POLES }))
  await server.call(routes.takeInFeeder, { body: { layers } })
})
afterAll(() => server.stop())

type Request = RouteInput<typeof routes.startStudy>['body']['request']

async function start(feederId: string, request: Request = {}): Promise<string> {
  const input = { params: { feederId }, body: { request } }
  return (await server.call(routes.startStudy, input)).studyId
}

async function allEvents(studyId: string): Promise<StudyEvent[]> {
  const events: StudyEvent[] = []
  for await (const event of readEvents(server, studyId)) events.push(event)
  return events
}

async function untilRunning(studyId: string): Promise<void> {
  for await (const { event, data } of readEvents(server, studyId)) {
    if (event !== 'progress' || (data.state === 'running' && data.total > 0)) return
  }
}

describe('a study that runs to its end', () => {
  it('tells how far it is, then gives what the same search gives here', async () => {
    const studyId = await start(SMALL)
    const events = await allEvents(studyId)
    const [last] = events.slice(-1)
    expect(events.slice(0, -1).every(({ event }) => event === 'progress')).toBe(true)
    if (last?.event !== 'done')
      throw new Error(`Expected the study to be done, got ${last?.event}.`)
    const here = siteFeeder(smallFeeder({ place: PLACE }), SiteRequest.parse({}))
    expect({ status: 'done', result: last.data.result }).toEqual(here)
    expect(last.data).toMatchObject({ feederId: SMALL, feederVersion: 1, state: 'done' })
    expect(await server.call(routes.getStudy, { params: { studyId } })).toEqual(last.data)
  })

  it('gives only its end to who comes later', async () => {
    const studyId = await start(SMALL)
    await allEvents(studyId)
    expect((await allEvents(studyId)).map(({ event }) => event)).toEqual(['done'])
  })

  it('cannot be cancelled any more', async () => {
    const studyId = await start(SMALL)
    await allEvents(studyId)
    const problem = await server.problem(routes.cancelStudy, { params: { studyId } })
    expect(problem).toMatchObject({ status: 409, code: 'wrong-state' })
  })
})

describe('a study that takes long', () => {
  it('is cancelled, tells its followers and lets the next one run', async () => {
    const studyId = await start(LONG, { banks: 2 })
    const followed = allEvents(studyId)
    await untilRunning(studyId)
    const cancelled = await server.call(routes.cancelStudy, { params: { studyId } })
    expect(cancelled).toMatchObject({ state: 'cancelled' })
    expect(cancelled.endedAt).not.toBeNull()
    const events = await followed
    expect(events.at(-1)).toEqual({ event: 'cancelled', data: cancelled })
    const counts = events.filter(({ event }) => event === 'progress').map(({ data }) => data.total)
    expect(Math.max(...counts)).toBeGreaterThan(0)
    expect(await server.call(routes.getStudy, { params: { studyId } })).toEqual(cancelled)
    expect((await allEvents(await start(SMALL))).at(-1)?.event).toBe('done')
  })

  it('gives its present state first to who comes back after losing the line', async () => {
    const studyId = await start(LONG, { banks: 2 })
    await untilRunning(studyId)
    const again = readEvents(server, studyId)
    const first = (await again.next()).value as StudyEvent
    expect(first).toMatchObject({ event: 'progress', data: { state: 'running' } })
    await server.call(routes.cancelStudy, { params: { studyId } })
    let last = first
    for await (const event of again) last = event
    expect(last.event).toBe('cancelled')
  })
})

describe('a study that cannot give an answer', () => {
  it('fails with the case that has no solution', async () => {
    const feeder = smallFeeder({ id: 'overloaded' })
    feeder.header.cases[0]!.loadFactor = 40
    await server.call(routes.takeInFeeder, { body: { layers: layersOfFeeder(feeder) } })
    const last = (await allEvents(await start('overloaded'))).at(-1)
    if (last?.event !== 'failed') throw new Error(`Expected it to fail, got ${last?.event}.`)
    expect(last.data.problem?.code).toBe('not-converged')
    expect(last.data.problem?.detail).toContain('Peak')
  })
})

describe('studies of a feeder', () => {
  it('are listed, newest first, without their results', async () => {
    const [first, second] = [await start(SMALL), await start(SMALL)]
    for (const studyId of [first, second]) await allEvents(studyId)
    const listed = await server.call(routes.listStudies, { params: { feederId: SMALL } })
    expect(listed.slice(0, 2).map(({ id, state }) => [id, state])).toEqual([
      [second, 'done'],
      [first, 'done'],
    ])
    expect(listed[0]).not.toHaveProperty('result')
  })

  it('are started for several at once, followed as one work, and done once each', async () => {
    const body = { feederIds: [SMALL, SMALL], request: {}, workId: randomUUID() }
    const started = await server.call(routes.startStudies, { body })
    expect(started.studies.map(({ feederId }) => feederId)).toEqual([SMALL])
    expect(await server.call(routes.startStudies, { body })).toEqual(started)
    for (const { studyId } of started.studies) await allEvents(studyId)
    const work = await server.call(routes.getWork, { params: { workId: started.workId } })
    expect(work).toMatchObject({ kind: 'siting-many', state: 'done', done: 1, total: 1 })
  })

  it('are cancelled together', async () => {
    const body = { feederIds: [LONG, SMALL], request: { banks: 2 as const } }
    const { workId, studies } = await server.call(routes.startStudies, { body })
    const cancelled = await server.call(routes.cancelStudies, { params: { workId } })
    expect(cancelled.state).toBe('cancelled')
    const long = studies[0]?.studyId ?? ''
    const study = await server.call(routes.getStudy, { params: { studyId: long } })
    expect(study.state).toBe('cancelled')
  })
})

describe('a study whose id the client made', () => {
  it('is one study when the request is sent again', async () => {
    const studyId = randomUUID()
    const input = { params: { feederId: SMALL }, body: { request: {}, studyId } }
    expect(await server.call(routes.startStudy, input)).toEqual({ studyId })
    expect(await server.call(routes.startStudy, input)).toEqual({ studyId })
    const other = { ...input, body: { studyId, request: { banks: 2 as const } } }
    expect((await server.problem(routes.startStudy, other)).code).toBe('key-reused')
  })
})

describe('what is refused', () => {
  it('a request that does not fit, with each place', async () => {
    const request = { banks: 3 as 2, workMonth: 13 }
    const input = { params: { feederId: SMALL }, body: { request } }
    const problem = await server.problem(routes.startStudy, input)
    expect(problem.faults?.map(({ at }) => at).sort()).toEqual([
      'body.request.banks',
      'body.request.workMonth',
    ])
  })

  it('a load case that the feeder does not have', async () => {
    const input = { params: { feederId: SMALL }, body: { request: { caseIds: ['peak', 'night'] } } }
    const problem = await server.problem(routes.startStudy, input)
    expect(problem.faults?.map(({ at }) => at)).toEqual(['body.request.caseIds.1'])
  })

  it('a low limit that is not below the high one, be it the one of the feeder', async () => {
    for (const request of [{ lowVolts120: 125, highVolts120: 120 }, { lowVolts120: 126 }]) {
      const input = { params: { feederId: SMALL }, body: { request } }
      const problem = await server.problem(routes.startStudy, input)
      expect(problem.faults?.map(({ at }) => at)).toEqual(['body.request.lowVolts120'])
    }
  })

  it('a feeder or a study that is not there', async () => {
    const elsewhere = { params: { feederId: 'nowhere' }, body: { request: {} } }
    expect((await server.problem(routes.startStudy, elsewhere)).code).toBe('not-found')
    const nobody = { params: { studyId: 'nobody' } }
    for (const route of [routes.getStudy, routes.cancelStudy, routes.followStudy] as const) {
      expect((await server.problem(route, nobody)).code).toBe('not-found')
    }
  })

  it('anyone but the planner', async () => {
    const input = { params: { feederId: SMALL }, body: { request: {} } }
    for (const actor of [CREW, COORDINATOR]) {
      expect((await server.problem(routes.startStudy, input, actor)).code).toBe('not-allowed')
    }
  })
})
