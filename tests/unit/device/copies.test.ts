import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest'
import { routes } from '#contract/routes.ts'
import {
  CREW,
  PLACE,
  SMALL,
  SUPERVISOR,
  startTestServer,
  type TestServer,
} from '../../http/test-server.ts'
import { photo } from '../../support/sample-files.ts'
import { type DevicePage, openPage } from './device-page.ts'
import { freshDevice } from './fresh-device.ts'
import { type Wire, wireTo } from './wire.ts'

let server: TestServer
let crew: string
let supervisor: string
let photoId: string
beforeAll(async () => {
  server = await startTestServer()
  crew = (await server.headersOf(CREW)).cookie ?? ''
  supervisor = (await server.headersOf(SUPERVISOR)).cookie ?? ''
  const query = { attachedTo: 'pole', attachedToId: 'P3', fileName: 'pole.jpg' } as const
  const file = new Blob([Uint8Array.from(await photo('jpeg'))])
  photoId = (await server.call(routes.attach, { ...inFeeder, query, file }, SUPERVISOR)).id
})
afterAll(() => server.stop())

let wire: Wire
let open: DevicePage[] = []
beforeEach(() => {
  freshDevice()
  wire = wireTo(server.address, crew)
})
afterEach(async () => {
  wire.letGo()
  for (const page of open) await page.end()
  open = []
  vi.restoreAllMocks()
  vi.unstubAllGlobals()
})

async function page(): Promise<DevicePage> {
  const opened = await openPage()
  open.push(opened)
  return opened
}

async function enteredPage(): Promise<DevicePage> {
  const opened = await page()
  await opened.enter()
  return opened
}

const inFeeder = { params: { feederId: SMALL } }
const FEEDER = { feederId: SMALL }

/** All that a page asks for before it shows a feeder. */
async function comeUp({ call }: DevicePage) {
  const list = await call('listFeeders', {})
  const { feeder } = await call('getFeeder', inFeeder)
  const land = await call('getLand', { params: { placeId: PLACE } })
  const protections = await call('listProtections', inFeeder)
  return { list, feeder, land, protections }
}

/** A file, which the route table says nothing of. */
const photoOf = async ({ call }: DevicePage) =>
  (await call('getAttachmentFile', { params: { attachmentId: photoId } })) as Blob

/** Resolves once what came by is on the device. */
const isKept = ({ copies }: DevicePage, path: string) =>
  vi.waitFor(async () => expect(await copies.findCopy(CREW.id, path)).not.toBeNull())

describe('a feeder that was taken offline', () => {
  it('comes up whole at a start without connection, with everything that the page asks for', async () => {
    const here = await enteredPage()
    const steps: string[] = []
    await here.onDevice.takeOffline(FEEDER, (done, all, words) =>
      steps.push(`${done}/${all} ${words}`),
    )
    expect(steps.at(-1)).toMatch(/^(\d+)\/\1 /)
    const withServer = await comeUp(here)

    wire.weather = 'no signal'
    const cold = await page()
    const me = await cold.enter()
    expect(me).toMatchObject({ id: CREW.id, roles: ['crew'] })
    expect(await comeUp(cold)).toEqual(withServer)
    expect(cold.connection.connection.get()).toMatchObject({
      isHere: false,
      copyFrom: expect.stringMatching(/^\d{4}-/),
    })
  })

  it('says its size and its age, and goes from the device when it is dropped', async () => {
    const here = await enteredPage()
    await here.onDevice.takeOffline(FEEDER)
    const [pack] = await here.onDevice.listOnDevice(CREW.id)
    expect(pack).toMatchObject({ key: `feeder:${SMALL}`, feederId: SMALL })
    const file = await photoOf(here)
    expect(pack?.sizeBytes).toBeGreaterThan(file.size)
    expect(Date.now() - Date.parse(pack?.keptAt ?? '')).toBeLessThan(60_000)

    await here.onDevice.dropFromDevice(`feeder:${SMALL}`)
    expect(await here.onDevice.listOnDevice(CREW.id)).toEqual([])
    wire.weather = 'no signal'
    await expect(here.call('getFeeder', inFeeder)).rejects.toThrow('does not answer')
  })

  it('has its photos on the device', async () => {
    const here = await enteredPage()
    await here.onDevice.takeOffline(FEEDER)
    const shown = await photoOf(here)
    wire.weather = 'no signal'
    const fromDevice = await photoOf(here)
    expect(await fromDevice.arrayBuffer()).toEqual(await shown.arrayBuffer())
    const query = { attachedTo: 'pole', attachedToId: 'P3' } as const
    const ofPole = await here.call('listAttachments', { ...inFeeder, query })
    expect(ofPole.map(({ id }) => id)).toEqual([photoId])
    const other = { ...query, attachedToId: 'P2' }
    expect(await here.call('listAttachments', { ...inFeeder, query: other })).toEqual([])
  })

  it('leaves nothing half behind where it is cancelled or the connection breaks', async () => {
    const here = await enteredPage()
    const stop = new AbortController()
    const stopAtMap = (_: number, __: number, words: string) => words === 'Map' && stop.abort()
    await expect(here.onDevice.takeOffline(FEEDER, stopAtMap, stop.signal)).rejects.toThrow()
    const breakAtMap = (_: number, __: number, words: string) => {
      if (words === 'Map') wire.weather = 'no signal'
    }
    await expect(here.onDevice.takeOffline(FEEDER, breakAtMap)).rejects.toThrow('does not answer')
    expect(await here.onDevice.listOnDevice(CREW.id)).toEqual([])
    const kept = (await here.copies.copiesOf(CREW.id)).map(({ route }) => route)
    expect(kept).not.toContain('getFeeder')
  })

  it('that does not fit says so in plain words', async () => {
    const here = await enteredPage()
    const full = vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
      throw new DOMException('full', 'QuotaExceededError')
    })
    await expect(here.onDevice.takeOffline(FEEDER)).rejects.toThrow('not enough room')
    full.mockRestore()
    expect(await here.onDevice.listOnDevice(CREW.id)).toEqual([])
  })
})

describe('an answer of the device', () => {
  it('is given where a proxy or a network’s own page answers in place of the server', async () => {
    const here = await enteredPage()
    const list = await here.call('listFeeders', {})
    await isKept(here, '/api/feeders')
    for (const weather of ['bad gateway', 'somebody else answers', 'no signal'] as const) {
      wire.weather = weather
      expect(await here.call('listFeeders', {})).toEqual(list)
      wire.weather = 'clear'
      expect(await here.connection.askWhetherHere()).toBe(true)
    }
  })

  it('is given after a few seconds where the server says nothing, and at once from then on', async () => {
    const here = await enteredPage()
    const list = await here.call('listFeeders', {})
    await isKept(here, '/api/feeders')
    wire.weather = 'silence'
    expect(await here.call('listFeeders', {})).toEqual(list)
    expect(here.connection.connection.get().isHere).toBe(false)
    const before = wire.sent.length
    expect(await here.call('listFeeders', {})).toEqual(list)
    expect(wire.sent.slice(before).filter((line) => line.endsWith('/api/feeders'))).toEqual([])
  })

  it('is not given where the server refuses; then the copy goes as well', async () => {
    const here = await enteredPage()
    const path = '/api/jobs/gone-1'
    await here.copies.keepCopy({ personId: CREW.id, route: 'getJob', path, content: '{}' })
    const asked = here.call('getJob', { params: { jobId: 'gone-1' } })
    await expect(asked).rejects.toMatchObject({ problem: { code: 'not-found' } })
    await vi.waitFor(async () => expect(await here.copies.findCopy(CREW.id, path)).toBeNull())
  })

  it('is replaced by the server’s as soon as it is there again', async () => {
    const here = await enteredPage()
    await here.call('listProtections', inFeeder)
    await isKept(here, `/api/feeders/${SMALL}/protections`)
    wire.weather = 'no signal'
    const old = await here.call('listProtections', inFeeder)
    const body = { pole: 'P2', kind: 'cover', what: 'new', state: 'on', on: '2026-05-01' } as const
    await server.call(routes.addProtection, { ...inFeeder, body }, SUPERVISOR)
    expect(await here.call('listProtections', inFeeder)).toEqual(old)
    wire.weather = 'clear'
    await here.connection.askWhetherHere()
    expect(await here.call('listProtections', inFeeder)).toHaveLength(old.length + 1)
  })

  it('is only the person’s own', async () => {
    const here = await enteredPage()
    await here.onDevice.takeOffline(FEEDER)
    wire.cookie = supervisor
    const other = await enteredPage()
    wire.weather = 'no signal'
    await expect(other.call('getFeeder', inFeeder)).rejects.toThrow('does not answer')
    const cold = await page()
    expect((await cold.enter()).id).toBe(SUPERVISOR.id)
  })

  it('is gone once the person has signed out, and none comes up without connection', async () => {
    // A session of its own, since signing out ends it.
    const entered = await fetch(`${server.address}/api/demo/enter`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ role: 'crew' }),
    })
    wire.cookie = entered.headers
      .getSetCookie()
      .map((cookie) => cookie.split(';')[0])
      .join('; ')
    const here = await enteredPage()
    await here.onDevice.takeOffline(FEEDER)
    await here.call('signOut', {})
    expect(await here.copies.copiesOf(CREW.id)).toEqual([])
    expect(await here.copies.packsOf(CREW.id)).toEqual([])
    wire.weather = 'no signal'
    await expect((await page()).enter()).rejects.toThrow('does not answer')
  })

  it('does not come up where the server has said that nobody is signed in', async () => {
    await enteredPage()
    wire.cookie = ''
    await expect((await page()).enter()).rejects.toThrow()
    wire.weather = 'no signal'
    await expect((await page()).enter()).rejects.toThrow('does not answer')
  })

  it('that a later version of the page cannot read counts as none', async () => {
    const here = await enteredPage()
    await here.copies.keepCopy({
      ...{ personId: CREW.id, route: 'listFeeders', path: '/api/feeders' },
      content: JSON.stringify([{ id: 'of another form' }]),
    })
    wire.weather = 'no signal'
    await expect(here.call('listFeeders', {})).rejects.toThrow('does not answer')
  })
})

describe('old copies', () => {
  it('go after a month, but for what was taken offline', async () => {
    const here = await enteredPage()
    await here.onDevice.takeOffline(FEEDER)
    const loose = {
      personId: CREW.id,
      route: 'getJob',
      path: '/api/jobs/j1',
      content: '{}',
    } as const
    await here.copies.keepCopy(loose)
    const before = await here.copies.copiesOf(CREW.id)
    await here.copies.dropOldCopies(Date.now() + 31 * 24 * 3_600_000)
    const after = (await here.copies.copiesOf(CREW.id)).map(({ route }) => route)
    expect(after).toContain('getFeeder')
    expect(after).not.toContain('getJob')
    expect(after.length).toBeLessThan(before.length)
  })
})
