import { request } from 'node:http'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { Problem } from '#contract/problem.ts'
import { routes } from '#contract/routes.ts'
import { PLANNER, startTestServer, type TestServer } from './test-server.ts'

let server: TestServer
beforeAll(async () => {
  server = await startTestServer({
    mapStyleUrl: 'https://maps.utility.example/style.json',
    names: ['poles.utility.example'],
  })
})
afterAll(() => server.stop())

interface Ask {
  readonly method?: string
  readonly path?: string
  readonly headers?: Record<string, string>
  readonly body?: string
}

/** Sends what `fetch` would not, such as a Host of one's own. */
function ask({ method = 'GET', path = '/api/ready', headers = {}, body = '' }: Ask) {
  return new Promise<{ status: number; text: string }>((resolve, reject) => {
    const sent = request(server.address + path, { method, headers }, (answer) => {
      let text = ''
      answer.setEncoding('utf8').on('data', (part: string) => {
        text += part
      })
      answer.on('end', () => resolve({ status: answer.statusCode ?? 0, text }))
    })
    sent.on('error', reject).end(body)
  })
}

const problemCode = (text: string) => Problem.parse(JSON.parse(text)).code

describe('headers of every answer', () => {
  it.each(['/api/ready', '/api/nowhere', '/', '/nowhere.js'])('%s is guarded', async (path) => {
    const { headers } = await fetch(server.address + path)
    const policy = headers.get('content-security-policy')?.split('; ')
    expect(policy).toContain("default-src 'none'")
    expect(policy).toContain("script-src 'self'")
    expect(policy).toContain("frame-ancestors 'none'")
    expect(headers.get('content-security-policy')).not.toMatch(/unsafe-(inline|eval)/)
    expect(headers.get('x-content-type-options')).toBe('nosniff')
    expect(headers.get('x-frame-options')).toBe('DENY')
    expect(headers.get('referrer-policy')).toBe('no-referrer')
    expect(headers.get('x-request-id')).toMatch(/^[\w-]{8,}$/)
  })

  it('lets the configured map style in, and tells the screens of it', async () => {
    const { headers } = await fetch(`${server.address}/api/ready`)
    const policy = headers.get('content-security-policy')
    expect(policy).toContain("connect-src 'self' https://maps.utility.example;")
    expect(await server.call(routes.getSettings, {})).toMatchObject({
      mapStyleUrl: 'https://maps.utility.example/style.json',
    })
  })
})

describe('where a request comes from', () => {
  const write = { method: 'DELETE', path: '/api/proposals/none?version=1' }

  it('takes a change from its own pages and from programs', async () => {
    const actor = await server.headersOf(PLANNER)
    const origin = new URL(server.address).origin
    const own: Record<string, string> = { origin, 'sec-fetch-site': 'same-origin' }
    for (const headers of [{}, own]) {
      const { text } = await ask({ ...write, headers: { ...actor, ...headers } })
      expect(problemCode(text)).toBe('not-found')
    }
  })

  it.each([
    { origin: 'https://elsewhere.example' },
    { origin: 'null' },
    { 'sec-fetch-site': 'cross-site' },
    { 'sec-fetch-site': 'same-site' },
  ])('refuses a change with %o', async (headers) => {
    const actor = await server.headersOf(PLANNER)
    const { status, text } = await ask({ ...write, headers: { ...actor, ...headers } as never })
    expect([status, problemCode(text)]).toEqual([403, 'cross-site'])
  })

  it('answers only to its own names', async () => {
    const foreign = await ask({ headers: { host: 'elsewhere.example' } })
    expect([foreign.status, problemCode(foreign.text)]).toEqual([403, 'cross-site'])
    for (const host of ['localhost:80', '127.0.0.1', '[::1]:9', 'poles.utility.example']) {
      expect((await ask({ headers: { host } })).status).toBe(200)
    }
  })
})

describe('requests that are not as they should be', () => {
  const post = { method: 'POST', path: '/api/feeders' }
  const json = { 'content-type': 'application/json' }

  it.each([
    ['nobody', { cookie: '' }, 'sign-in-needed'],
    ['a role that the person does not have', { 'x-acting-role': 'administrator' }, 'not-allowed'],
    ['a form', { 'content-type': 'application/x-www-form-urlencoded' }, 'wrong-media-type'],
  ])('refuses %s', async (_, changed, code) => {
    const headers = { ...json, ...(await server.headersOf(PLANNER)), ...changed }
    const { text } = await ask({ ...post, headers, body: '{"layers":{}}' })
    expect(problemCode(text)).toBe(code)
  })

  it('refuses what is not JSON', async () => {
    const { status, text } = await ask({
      ...post,
      headers: { ...json, ...(await server.headersOf(PLANNER)) },
      body: '{"layers":',
    })
    expect([status, problemCode(text)]).toEqual([400, 'malformed-request'])
  })

  it('refuses a body that is too large before reading it', async () => {
    const actor = await server.headersOf(PLANNER)
    const headers = { ...json, ...actor, 'content-length': String(200 * 1024 * 1024) }
    const answer = await new Promise<number>((resolve, reject) => {
      const sent = request(server.address + post.path, { method: 'POST', headers }, (response) => {
        resolve(response.statusCode ?? 0)
        sent.destroy()
      })
      sent.on('error', reject).write('{')
    })
    expect(answer).toBe(413)
  })

  it('says which methods an address takes', async () => {
    const answer = await fetch(`${server.address}/api/feeders`, { method: 'PATCH' })
    expect([answer.status, answer.headers.get('allow')]).toEqual([405, 'GET, POST'])
    expect(problemCode(await answer.text())).toBe('method-not-allowed')
  })

  it('answers problems in the form of RFC 9457', async () => {
    const answer = await fetch(`${server.address}/api/nowhere`)
    expect(answer.headers.get('content-type')).toBe('application/problem+json')
    const problem = Problem.parse(await answer.json())
    expect(problem).toMatchObject({ status: 404, code: 'not-found', type: expect.any(String) })
    expect(problem.requestId).toBe(answer.headers.get('x-request-id'))
  })
})
