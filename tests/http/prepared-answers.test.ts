import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { routes } from '#contract/routes.ts'
import { layersOfFeeder } from '../../server/layer-files/layers-of-feeder.ts'
import { smallFeeder } from '../support/small-feeder.ts'
import {
  COORDINATOR,
  PLANNER,
  READER,
  SMALL,
  startTestServer,
  type TestServer,
} from './test-server.ts'

let server: TestServer
beforeAll(async () => {
  server = await startTestServer()
})
afterAll(() => server.stop())

const params = { feederId: SMALL }

async function askFeeder(as = PLANNER, tag?: string): Promise<Response> {
  return fetch(`${server.address}/api/feeders/${SMALL}`, {
    headers: {
      ...(await server.headersOf(as)),
      ...(tag !== undefined && { 'if-none-match': tag }),
    },
  })
}

describe('a feeder that somebody has already', () => {
  it('is not sent again', async () => {
    const first = await askFeeder()
    const tag = first.headers.get('etag') ?? ''
    expect(tag).toMatch(/^W\/"[\w-]+"$/)
    const again = await askFeeder(PLANNER, `"other", ${tag}`)
    expect([again.status, await again.text()]).toEqual([304, ''])
    expect(again.headers.get('cache-control')).toBe('private, no-cache')
    expect(again.headers.get('content-security-policy')).toContain("default-src 'none'")
  })

  it('is sent again once a guard on it changed, was deleted or came back', async () => {
    const body = { pole: 'p1', kind: 'cover' as const, what: 'Bushing cover', on: '2026-05-01' }
    const states = new Set<string>()
    const look = async () => {
      const { feeder } = await server.call(routes.getFeeder, { params })
      const tag = (await askFeeder()).headers.get('etag') ?? ''
      states.add(tag)
      return feeder.protections.find(({ id }) => id === added.id)
    }
    const [known] = await server.call(routes.listProtections, { params })
    const pole = known?.pole ?? body.pole
    const added = await server.call(
      routes.addProtection,
      { params, body: { ...body, pole, state: 'planned' } },
      COORDINATOR,
    )
    expect((await look())?.state).toBe('planned')
    const item = { params: { ...params, protectionId: added.id } }
    const on = { ...body, pole, state: 'on' as const, version: 1 }
    await server.call(routes.changeProtection, { ...item, body: on }, COORDINATOR)
    expect((await look())?.state).toBe('on')
    await server.call(routes.deleteProtection, { ...item, query: { version: 2 } }, COORDINATOR)
    expect(await look()).toBeUndefined()
    await server.call(routes.restoreProtection, { ...item, query: { version: 3 } }, COORDINATOR)
    expect((await look())?.state).toBe('on')
    expect(states.size).toBeGreaterThanOrEqual(3)
  })

  it('is never kept for one who may see less of it', async () => {
    const feeder = smallFeeder({ id: 'nesting' })
    const place = { at: [-106.95, 43.001] as [number, number], species: 'osprey' }
    const season = { seasonFrom: '02-15', seasonTo: '07-15' }
    feeder.nests.push({ id: 'N1', ...place, status: 'in use', bufferM: 200, ...season })
    await server.call(routes.takeInFeeder, { body: { layers: layersOfFeeder(feeder) } })
    const nesting = { params: { feederId: 'nesting' } }
    const seenBy = async (as: typeof PLANNER) =>
      (await server.call(routes.getFeeder, nesting, as)).feeder.nests.length
    expect([await seenBy(PLANNER), await seenBy(READER), await seenBy(PLANNER)]).toEqual([1, 0, 1])
  })
})
