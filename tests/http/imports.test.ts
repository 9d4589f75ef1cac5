import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { routes } from '#contract/routes.ts'
import { hasEnded, type Work } from '#contract/work.ts'
import { layersOfFeeder } from '../../server/layer-files/layers-of-feeder.ts'
import { smallFeeder } from '../support/small-feeder.ts'
import { COORDINATOR, CREW, startTestServer, type TestServer } from './test-server.ts'

let server: TestServer
beforeAll(async () => {
  server = await startTestServer()
})
afterAll(() => server.stop())

const layersOf = (id: string) => layersOfFeeder(smallFeeder({ id }))

/** Reads the stream to its end, as a page would, and gives how the work stands then. */
async function ended(workId: string): Promise<Work> {
  const headers = await server.headersOf(COORDINATOR)
  const stream = await fetch(`${server.address}/api/long-work/${workId}/events`, { headers })
  await stream.text()
  const work = await server.call(routes.getWork, { params: { workId } }, COORDINATOR)
  expect(hasEnded(work.state)).toBe(true)
  return work
}

describe('taking in a feeder in the background', () => {
  it('adds it once, however often the same request is sent', async () => {
    const body = { layers: layersOf('ridge'), workId: randomUUID() }
    for (let sent = 0; sent < 2; sent++) {
      const { workId } = await server.call(routes.startImport, { body }, COORDINATOR)
      expect(workId).toBe(body.workId)
    }
    const work = await ended(body.workId)
    expect(work).toMatchObject({ state: 'done', result: { id: 'ridge', version: 1 } })
    const { version } = await server.call(routes.getFeeder, { params: { feederId: 'ridge' } })
    expect(version).toBe(1)
  })

  it('refuses layers with errors, with every finding, and adds nothing', async () => {
    const { 'poles.geojson': _poles, ...layers } = layersOf('no-poles')
    const { workId } = await server.call(routes.startImport, { body: { layers } }, COORDINATOR)
    const work = await ended(workId)
    expect(work).toMatchObject({ state: 'failed', problem: { code: 'feeder-refused' } })
    expect(work.problem?.findings?.length).toBeGreaterThan(0)
    const input = { params: { feederId: 'no-poles' } }
    expect((await server.problem(routes.getFeeder, input)).code).toBe('not-found')
  })

  it('is not cancelled by an address of other work, nor by those who may not', async () => {
    const body = { layers: layersOf('valley') }
    const { workId } = await server.call(routes.startImport, { body }, COORDINATOR)
    const input = { params: { workId } }
    expect((await server.problem(routes.cancelStudies, input)).code).toBe('not-found')
    expect((await server.problem(routes.cancelImport, input, CREW)).code).toBe('not-allowed')
    expect((await ended(workId)).state).toBe('done')
    const late = await server.problem(routes.cancelImport, input, COORDINATOR)
    expect(late).toMatchObject({ status: 409, code: 'wrong-state' })
  })
})
