import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { enterDemo } from '../support/enter-demo.ts'
import { type RunningServer, startServer } from '../support/start-server.ts'

let dataFolder = ''
let server: RunningServer
beforeAll(async () => {
  dataFolder = await mkdtemp(join(tmpdir(), 'crossarm-start-'))
  server = await startServer({ dataFolder })
})
afterAll(async () => {
  await server.stop()
  await rm(dataFolder, { recursive: true, force: true })
})

interface Named {
  readonly id: string
}

/** Asks as the coordinator of the demo. */
async function ask(path: string, options: RequestInit = {}): Promise<Response> {
  const cookie = await enterDemo(server.url, 'coordinator')
  return fetch(server.url + path, {
    ...options,
    headers: { cookie, 'content-type': 'application/json' },
  })
}

async function feedersOf(origin: string): Promise<Named[]> {
  const answer = await ask('/api/feeders')
  const feeders = (await answer.json()) as (Named & { origin: string })[]
  return feeders.filter((feeder) => feeder.origin === origin)
}

describe('npm start', () => {
  it('prints the address to open', () => {
    expect(server.output()).toContain(server.url)
  })

  it('serves the page and the script that it names', async () => {
    const page = await (await fetch(server.url)).text()
    const script = /<script[^>]+src="([^"]+)"/.exec(page)?.[1]
    const answer = await fetch(new URL(script ?? 'missing', server.url))
    expect(answer.status).toBe(200)
    expect(answer.headers.get('content-type')).toContain('javascript')
  })

  it('comes with two demo feeders and the published ones', async () => {
    expect(await feedersOf('demo')).toHaveLength(2)
    expect((await feedersOf('published')).length).toBeGreaterThanOrEqual(5)
  })

  it('starts a second time without installing or building, and keeps what was recorded', async () => {
    const [feeder] = await feedersOf('demo')
    const address = `/api/feeders/${feeder?.id}/protections`
    const { poles } = await feederOf(feeder?.id)
    const item = {
      pole: poles[0]?.id,
      kind: 'perch',
      what: 'perch above the arm',
      state: 'planned',
    }
    const posted = await ask(address, {
      method: 'POST',
      body: JSON.stringify({ ...item, on: '2026-05-01' }),
    })
    expect(posted.status).toBe(201)
    const { id } = (await posted.json()) as Named
    await server.stop()
    server = await startServer({ dataFolder })
    expect(server.output()).not.toMatch(/Installing|Building/)
    const kept = (await (await ask(address)).json()) as Named[]
    expect(kept.map((protection) => protection.id)).toContain(id)
  })
})

async function feederOf(id: string | undefined): Promise<{ poles: Named[] }> {
  const answer = await ask(`/api/feeders/${id}`)
  const { feeder } = (await answer.json()) as { feeder: { poles: Named[] } }
  return feeder
}
