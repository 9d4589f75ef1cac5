import { createServer, type Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { warningsOf } from '../../../web/api/device-warnings.ts'
import { clockSkewMs } from '../../../web/device/connection.ts'

const AT = Date.parse('2026-06-01T12:00:00Z')
/** The example of a Date header in RFC 9110, 6.6.1. */
const EXAMPLE = 'Tue, 15 Nov 1994 08:12:31 GMT'

describe('the clock of the device', () => {
  it('is held against the Date header of RFC 9110', () => {
    const atServer = Date.UTC(1994, 10, 15, 8, 12, 31)
    // The header leaves out parts of a second, so half of one is added to it.
    expect(clockSkewMs(EXAMPLE, atServer + 500, atServer + 500)).toBe(0)
    expect(clockSkewMs(EXAMPLE, atServer + 300_500, atServer + 300_500)).toBe(300_000)
    expect(clockSkewMs(EXAMPLE, atServer - 59_500, atServer - 59_500)).toBe(-60_000)
  })

  it('is compared at the middle of asking and answer, and not at all where that took long', () => {
    const atServer = Date.parse(new Date(AT).toUTCString())
    expect(clockSkewMs(new Date(AT).toUTCString(), atServer, atServer + 1_000)).toBe(0)
    expect(clockSkewMs(new Date(AT).toUTCString(), atServer, atServer + 9_000)).toBeNull()
  })

  it('is unknown where no date is given', () => {
    expect(clockSkewMs(null, AT, AT)).toBeNull()
    expect(clockSkewMs('yesterday', AT, AT)).toBeNull()
  })
})

describe('what the person is told of the device', () => {
  const well = { trouble: null, clockSkewMs: 900, storage: null }
  const room = (freeBytes: number | null) => ({ usedBytes: 1, freeBytes, isPersistent: true })

  it('is nothing while all is well', () => {
    expect(warningsOf(well)).toEqual([])
    expect(warningsOf({ ...well, storage: room(5_000_000_000) })).toEqual([])
    expect(warningsOf({ ...well, storage: room(null) })).toEqual([])
  })

  it('names which way its clock is off, and by how much', () => {
    const words = (skewMs: number) => warningsOf({ ...well, clockSkewMs: skewMs }).join()
    expect(words(7 * 60_000)).toContain('about 7 minutes ahead of')
    expect(words(-3 * 3_600_000)).toContain('about 3 hours behind')
    expect(words(72 * 3_600_000)).toContain('about 3 days ahead of')
  })

  it('says when little room is left, in megabytes', () => {
    const words = warningsOf({ ...well, storage: room(12_300_000) })
    expect(words).toEqual([expect.stringContaining('Only 12 MB')])
  })
})

describe('a server that is away', () => {
  let server: Server
  let asked: string[]
  let status: number
  beforeEach(async () => {
    asked = []
    status = 200
    server = createServer((request, answer) => {
      asked.push(request.url ?? '')
      answer.writeHead(status, { 'content-type': 'application/json' })
      answer.end('{"status":"ready"}')
    })
    await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
    const { port } = server.address() as AddressInfo
    const real = globalThis.fetch
    vi.stubGlobal('fetch', (path: string, options?: RequestInit) =>
      real(`http://127.0.0.1:${port}${path}`, options),
    )
  })
  afterEach(async () => {
    vi.unstubAllGlobals()
    await new Promise((resolve) => server.close(resolve))
  })

  async function freshConnection() {
    vi.resetModules()
    return import('../../../web/device/connection.ts')
  }

  it('is found again by itself', async () => {
    const { connection, noteNoAnswer, onServerBack } = await freshConnection()
    const isBack = vi.fn()
    onServerBack(isBack)
    noteNoAnswer()
    expect(connection.get().isHere).toBe(false)
    await vi.waitFor(() => expect(isBack).toHaveBeenCalledOnce(), { timeout: 20_000 })
    expect(connection.get().isHere).toBe(true)
    expect(asked).toEqual(['/api/ready'])
  })

  it('is asked by one question at a time, and counts as away while it says that it cannot serve', async () => {
    const { askWhetherHere, connection } = await freshConnection()
    status = 503
    const answers = await Promise.all([askWhetherHere(), askWhetherHere(), askWhetherHere()])
    expect(answers).toEqual([false, false, false])
    expect(asked).toHaveLength(1)
    status = 200
    expect(await askWhetherHere()).toBe(true)
    expect(connection.get().isHere).toBe(true)
  })
})
