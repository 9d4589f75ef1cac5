import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { Problem } from '#contract/problem.ts'
import { routes } from '#contract/routes.ts'
import { secretsOf } from '../../server/log/secrets-of.ts'
import { openLog } from '../../server/log/server-log.ts'
import { PLANNER, SMALL, startTestServer, type TestServer } from './test-server.ts'

let server: TestServer
let lines: string[] = []
beforeAll(async () => {
  const env = { CROSSARM_SECRET: 'the-secret-of-this-server-0123456789' }
  server = await startTestServer({
    secret: env.CROSSARM_SECRET,
    log: openLog({
      level: 'info',
      isPlain: false,
      secrets: secretsOf(env),
      destination: { write: (line) => lines.push(line) },
    }),
  })
})
afterAll(() => server.stop())

interface Line {
  readonly level: string
  readonly requestId?: string
  readonly method?: string
  readonly route?: string
  readonly status?: number
  readonly durationMs?: number
}

/** What the log says of what is done meanwhile. */
async function logged(act: () => Promise<unknown>): Promise<{ text: string; entries: Line[] }> {
  lines = []
  await act()
  return { text: lines.join(''), entries: lines.map((line) => JSON.parse(line) as Line) }
}

const post = (path: string, body: unknown, headers: Record<string, string> = {}) =>
  fetch(server.address + path, {
    method: 'POST',
    headers: { 'content-type': 'application/json', ...headers },
    body: JSON.stringify(body),
  })

describe('each request', () => {
  it('is one line with its row of the table, status, time and id, and not its address', async () => {
    const headers = { ...(await server.headersOf(PLANNER)), 'x-request-id': 'proxy-4711' }
    const address = `${server.address}/api/feeders/${SMALL}?version=1`
    const { entries, text } = await logged(() => fetch(address, { headers }))
    expect(entries).toEqual([
      expect.objectContaining({
        level: 'info',
        requestId: 'proxy-4711',
        method: 'GET',
        route: '/api/feeders/:feederId',
        status: 200,
        durationMs: expect.any(Number),
      }),
    ])
    expect(text).not.toContain('version=1')
  })

  it.each(['x'.repeat(65), 'two words', 'a"b', '<b>', 'a/../b'])(
    'gets an id of its own in place of %j',
    async (id) => {
      const answer = await fetch(`${server.address}/api/nowhere`, {
        headers: { 'x-request-id': id },
      })
      const { requestId } = Problem.parse(await answer.json())
      expect(requestId).toMatch(/^[\w-]{36}$/)
      expect(answer.headers.get('x-request-id')).toBe(requestId)
    },
  )
})

describe('the log of', () => {
  it('a sign-in holds neither email nor password', async () => {
    const { text, entries } = await logged(() =>
      post('/api/sign-in', { email: 'jo.field@utility.example', password: 'hush-hush-hush-1' }),
    )
    expect(entries.at(-1)).toMatchObject({ route: '/api/sign-in', status: 401 })
    expect(text).not.toMatch(/jo\.field|hush/)
  })

  it('an invitation holds no token', async () => {
    const token = 'inv0123456789abcdefghijklmnopqrstuvwxyz'
    const { text, entries } = await logged(() => post('/api/invitation', { token }))
    expect(entries.at(-1)?.route).toBe('/api/invitation')
    expect(text).not.toContain(token)
  })

  it('a request with a bearer token or a cookie holds neither', async () => {
    const headers = await server.headersOf(PLANNER)
    const secrets = ['ca_0123456789abcdefghijklmnop', ...Object.values(headers)]
    const { text } = await logged(async () => {
      await fetch(`${server.address}/api/feeders`, {
        headers: { authorization: `Bearer ${secrets[0]}` },
      })
      await fetch(`${server.address}/api/feeders`, { headers })
    })
    const found = secrets.filter((secret) => secret.length > 16 && text.includes(secret))
    expect(found).toEqual([])
  })

  it('a body that is wrong holds nothing of it', async () => {
    const headers = await server.headersOf(PLANNER)
    const { text } = await logged(() =>
      post('/api/feeders/x/proposals', { name: 'Landowner Jo Field complains' }, headers),
    )
    expect(text).not.toContain('Jo Field')
  })

  it('the people of the demo holds none of their names', async () => {
    const { names } = await server.call(routes.listNames, {})
    const known = Object.values(names)
    const { text } = await logged(() => server.call(routes.getMe, {}))
    expect(known.length).toBeGreaterThan(2)
    expect(known.filter((name) => text.includes(name))).toEqual([])
  })
})
