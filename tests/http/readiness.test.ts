import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { routes } from '#contract/routes.ts'
import { startStaffedServer } from '../people/staff.ts'
import { PLANNER, SMALL, startTestServer, type TestServer } from './test-server.ts'

let server: TestServer
beforeAll(async () => {
  server = await startTestServer()
})
afterAll(() => server.stop())

describe('whoever runs the server', () => {
  it('learns without signing in that it lives and is ready', async () => {
    expect(await server.call(routes.getLive, {}, 'nobody')).toEqual({ status: 'live' })
    expect(await server.call(routes.getReady, {}, 'nobody')).toEqual({ status: 'ready' })
  })

  it('reads no measures without the right to', async () => {
    expect((await server.problem(routes.getMeasures, {}, 'nobody')).code).toBe('sign-in-needed')
    expect((await server.problem(routes.getMeasures, {}, PLANNER)).code).toBe('not-allowed')
  })
})

describe('the measures', () => {
  let machine: Awaited<ReturnType<typeof startWithToken>>
  beforeAll(async () => {
    machine = await startWithToken()
  })
  afterAll(() => machine.server.stop())

  /** What a machine with a token for nothing else reads. */
  async function measures(): Promise<string> {
    const { server: own, secret } = machine
    const answer = await fetch(`${own.address}/api/metrics`, {
      headers: { authorization: `Bearer ${secret}` },
    })
    expect(answer.headers.get('content-type')).toMatch(/^text\/plain; version=0\.0\.4/)
    return answer.text()
  }

  it('count and time requests by row of the table, never by address', async () => {
    const { server: own } = machine
    await own.problem(routes.getFeeder, { params: { feederId: SMALL } }, 'nobody')
    const text = await measures()
    const labels = 'method="GET",route="/api/feeders/:feederId",status="401",ok="false"'
    expect(figure(text, `crossarm_http_requests_total{${labels}}`)).toBe(1)
    expect(figure(text, `crossarm_http_request_duration_seconds_count{${labels}}`)).toBe(1)
    expect(text).not.toContain(`/${SMALL}`)
  })

  it('tell of the database, of followers and of the process', async () => {
    const before = figure(await measures(), 'crossarm_database_writes_total{end="kept"}')
    const { server: own } = machine
    const body = { email: 'kim@utility.example', name: 'Kim Vale', roles: ['crew' as const] }
    await own.call(routes.invitePerson, { body }, own.administrator)
    const text = await measures()
    expect(figure(text, 'crossarm_database_writes_total{end="kept"}')).toBeGreaterThan(before)
    expect(figure(text, 'crossarm_live_followers')).toBe(0)
    expect(figure(text, 'process_resident_memory_bytes')).toBeGreaterThan(1e6)
    expect(text).toContain('# TYPE crossarm_work_items gauge')
  })
})

function figure(text: string, name: string): number {
  const line = text.split('\n').find((each) => each.startsWith(`${name} `))
  return Number(line?.slice(name.length + 1))
}

/** A server without the demo, and a token that may read the measures. */
async function startWithToken() {
  const own = await startStaffedServer()
  const body = {
    name: 'measuring',
    role: 'administrator' as const,
    rights: ['read the measures of the server' as const],
    days: 1,
  }
  const { secret } = await own.call(routes.makeToken, { body }, own.administrator)
  return { server: own, secret }
}
