import { once } from 'node:events'
import { OpenAPIHono } from '@hono/zod-openapi'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { PROBLEM_CODES, Problem } from '#contract/problem.ts'
import { createHttpServer, SERVER_LIMITS } from '../../server/http/http-server.ts'
import { listen, stopListening } from '../../server/http/listen.ts'
import { openRaw, requestHead } from './raw-connection.ts'
import { COORDINATOR, PLANNER, SMALL, startTestServer, type TestServer } from './test-server.ts'

let server: TestServer
let planner: Record<string, string>
let coordinator: Record<string, string>
beforeAll(async () => {
  server = await startTestServer()
  planner = await server.headersOf(PLANNER)
  coordinator = await server.headersOf(COORDINATOR)
})
afterAll(() => server.stop())

const JSON_TYPE = { 'content-type': 'application/json' }

/** Sends a body as it is and gives the problem that is answered. */
async function refused(
  path: string,
  body: string | Uint8Array<ArrayBuffer>,
  headers: Record<string, string>,
) {
  const answer = await fetch(server.address + path, {
    method: 'POST',
    headers: { ...JSON_TYPE, ...headers },
    body,
  })
  return Problem.parse(await answer.json())
}

const guard = (note: string) =>
  JSON.stringify({ pole: 'p1', kind: 'cover', what: 'cover', state: 'on', on: '2026-05-01', note })
const protections = `/api/feeders/${SMALL}/protections`

describe('a body', () => {
  it('of more than 256 kB is refused where no row of the table allows more', async () => {
    const problem = await refused(protections, guard('x'.repeat(300_000)), coordinator)
    expect(problem).toMatchObject({ code: 'too-large', status: 413 })
    expect(problem.detail).toContain('256 kB')
  })

  it('of a feeder may be larger', async () => {
    const layers = { 'feeder.json': { note: 'x'.repeat(1_000_000) } }
    const problem = await refused('/api/feeders', JSON.stringify({ layers }), planner)
    expect(problem.code).toBe('feeder-refused')
  })

  it('of unknown length is counted while it comes', async () => {
    const connection = await openRaw(server.address)
    const headers = { ...coordinator, ...JSON_TYPE, 'transfer-encoding': 'chunked' }
    connection.send(`${requestHead('POST', protections, server.address, headers)}\r\n`)
    const chunk = `10000\r\n${'x'.repeat(0x10000)}\r\n`
    for (let sent = 0; sent < 8; sent++) connection.send(chunk)
    const [answer] = (await once(connection.socket, 'data')) as [string]
    connection.socket.destroy()
    expect(answer).toMatch(/^HTTP\/1\.1 413 /)
  })

  it.each([
    ['with a NUL character', guard('a\u0000b'), 'body.note: holds a NUL character.'],
    [
      'with half of a surrogate pair',
      guard('\ud83e'),
      'body.note: holds half of a surrogate pair.',
    ],
    ['nested very deep', '['.repeat(100_000) + ']'.repeat(100_000), 'nested deeper than 32'],
    ['that would change every object', '{"__proto__":{"isAdministrator":true}}', '__proto__'],
    ['cut off', guard('x').slice(0, -3), 'not JSON'],
    ['that is empty', '', 'not JSON'],
  ])('%s is refused with its place', async (_, body, detail) => {
    const problem = await refused(protections, body, coordinator)
    expect(problem).toMatchObject({ code: 'malformed-request', status: 400 })
    expect(problem.detail).toContain(detail)
  })

  it('that is no UTF-8 is refused or read as far as it can be, and never kept as it is', async () => {
    const body = new Uint8Array([...new TextEncoder().encode(guard('x')).slice(0, -3), 0xff, 0xfe])
    expect(PROBLEM_CODES).toContain((await refused(protections, body, coordinator)).code)
  })
})

describe('an address', () => {
  it.each([
    ['that is too long', `/api/feeders?x=${'y'.repeat(5000)}`],
    ['with a NUL character', '/api/feeders/a%00b'],
    ['with a NUL character in its query', '/api/feeders?x=%00'],
  ])('%s is refused', async (_, path) => {
    const answer = await fetch(server.address + path, { headers: planner })
    expect([answer.status, Problem.parse(await answer.json()).code]).toEqual([
      400,
      'malformed-request',
    ])
  })

  it.each([
    '/api/feeders/%',
    '/api/feeders/%E0%A4%A',
    '/api/feeders/..%2f..%2fetc',
    '/%2e%2e/x.js',
  ])('as %s finds nothing and breaks nothing', async (path) => {
    const answer = await fetch(server.address + path, { headers: planner })
    expect([400, 404]).toContain(answer.status)
    expect(Problem.safeParse(await answer.json()).success).toBe(true)
  })

  it('with headers of more than 16 kB is refused before the app sees it', async () => {
    const connection = await openRaw(server.address)
    connection.send(requestHead('GET', '/api/live', server.address, { x: 'y'.repeat(20_000) }))
    expect(await connection.closed).toMatch(/^HTTP\/1\.1 431 /)
  })
})

describe('a connection', () => {
  const quick = { ...SERVER_LIMITS, headersMs: 200, requestMs: 400, checkEveryMs: 50 }

  /** A server with short times, whose app reads the body of each request. */
  async function withQuickServer(use: (address: string) => Promise<void>): Promise<void> {
    const app = new OpenAPIHono()
    app.all('*', async (context) => context.text(await context.req.text()))
    app.onError((_, context) => context.text('cut off', 400))
    const quickServer = createHttpServer(app, quick)
    const address = await listen(quickServer, '127.0.0.1', 0)
    try {
      await use(address)
    } finally {
      await stopListening(quickServer)
    }
  }

  it('that sends its headers by drops is closed', async () => {
    await withQuickServer(async (address) => {
      const connection = await openRaw(address)
      connection.send(requestHead('GET', '/', address))
      const drops = setInterval(() => connection.send('x-drop: 1\r\n'), 40)
      const came = await connection.closed
      clearInterval(drops)
      expect(came).toMatch(/^HTTP\/1\.1 408 .*connection: close/is)
    })
  })

  it('that sends its body by drops is closed', async () => {
    await withQuickServer(async (address) => {
      const connection = await openRaw(address)
      connection.send(`${requestHead('POST', '/', address, { 'content-length': '1000' })}\r\n`)
      const drops = setInterval(() => connection.send('x'), 40)
      const came = await connection.closed
      clearInterval(drops)
      expect(came).toMatch(/^HTTP\/1\.1 408 /)
    })
  })

  it('beyond the most there may be is closed at once', async () => {
    const app = new OpenAPIHono()
    const small = createHttpServer(app, { ...quick, connections: 2 })
    const address = await listen(small, '127.0.0.1', 0)
    const open = [await openRaw(address), await openRaw(address)]
    const third = await openRaw(address)
    expect(await third.closed).toBe('')
    for (const { socket } of open) socket.destroy()
    await stopListening(small)
  })

  it('that speaks no HTTP is closed', async () => {
    const connection = await openRaw(server.address)
    connection.send('\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03 hello\r\n\r\n')
    expect(await connection.closed).toMatch(/^HTTP\/1\.1 400 /)
  })
})
