import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { PLANNER, SMALL, SUPERVISOR, startTestServer, type TestServer } from './test-server.ts'

let server: TestServer
beforeAll(async () => {
  server = await startTestServer()
})
afterAll(() => server.stop())

/** Headers of an answer, whose body is not waited for. */
async function headersOf(path: string, as: Parameters<TestServer['headersOf']>[0], from = server) {
  const leave = new AbortController()
  const { headers } = await fetch(from.address + path, {
    headers: await from.headersOf(as),
    signal: leave.signal,
  })
  leave.abort()
  return headers
}

describe('the guarding headers stand on', () => {
  it.each([
    ['a good answer', '/api/feeders', PLANNER, /^application\/json/],
    ['a prepared answer', `/api/feeders/${SMALL}`, PLANNER, /^application\/json/],
    ['a problem', '/api/feeders/none', PLANNER, /^application\/problem\+json/],
    ['a refusal to a stranger', '/api/feeders', 'nobody' as const, /^application\/problem\+json/],
    ['a file', '/api/history?as=csv', SUPERVISOR, /^text\/csv/],
    ['a stream', '/api/changes', PLANNER, /^text\/event-stream/],
    ['an address that is not there', '/api/nowhere', 'nobody' as const, /^application\/problem/],
  ])('%s', async (_, path, as, mediaType) => {
    const headers = await headersOf(path, as)
    expect(headers.get('content-type')).toMatch(mediaType)
    const policy = headers.get('content-security-policy')
    expect(policy).toContain("default-src 'none'")
    expect(policy).not.toMatch(/unsafe-(inline|eval)/)
    expect(headers.get('x-content-type-options')).toBe('nosniff')
    expect(headers.get('x-frame-options')).toBe('DENY')
    expect(headers.get('referrer-policy')).toBe('no-referrer')
    expect(headers.get('cross-origin-resource-policy')).toBe('same-origin')
    expect(headers.get('strict-transport-security')).toBeNull()
  })

  it('a file, which is offered for saving and may run nothing', async () => {
    const headers = await headersOf('/api/history?as=csv', SUPERVISOR)
    expect(headers.get('content-security-policy')).toBe("default-src 'none'; sandbox")
    expect(headers.get('content-disposition')).toMatch(/^attachment; filename=/)
  })
})

it('lets the pages ask for position and camera, keep themselves on the device, and nothing more', async () => {
  const headers = await headersOf('/', 'nobody')
  const allowed = headers.get('permissions-policy')?.split(', ')
  expect(allowed).toEqual([
    'geolocation=(self)',
    'camera=(self)',
    'microphone=()',
    'payment=()',
    'usb=()',
  ])
  const policy = headers.get('content-security-policy')?.split('; ')
  expect(policy).toContain("worker-src 'self'")
  expect(policy).toContain("manifest-src 'self'")
})

it('whoever comes by https is told to come by nothing else', async () => {
  const origin = 'https://crossarm.example'
  const behindProxy = await startTestServer({ isDemo: false, origin })
  const headers = await headersOf('/api/live', 'nobody', behindProxy)
  expect(headers.get('strict-transport-security')).toBe('max-age=31536000')
  await behindProxy.stop()
})
