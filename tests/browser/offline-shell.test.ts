import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { readDemoFeeder } from '../support/demo-feeder.ts'
import { keepPicture, mapIsIdle } from '../support/desk-page.ts'
import { type FieldPhone, fieldPhone } from '../support/field-phone.ts'
import { findFreePort } from '../support/free-port.ts'
import { passThrough } from '../support/pass-through.ts'
import { type RunningServer, startServer } from '../support/start-server.ts'

const FEEDER = 'thimble'

/** A browser that draws maps on a busy machine, opened several times. */
const WHOLE_WALK_MS = 300_000

let dataFolder: string
let port: number
let server: RunningServer
let phone: FieldPhone

beforeAll(async () => {
  dataFolder = await mkdtemp(join(tmpdir(), 'crossarm-offline-'))
  port = await findFreePort()
  server = await startServer({ dataFolder, port })
  phone = await fieldPhone()
})
afterAll(async () => {
  await phone?.throwAway()
  await server?.stop()
  await rm(dataFolder, { recursive: true, force: true })
})

const page = () => `${server.url}/?expose=map&feeder=${FEEDER}&person=crew`
/** Spans of the feeder and features of the land that the map draws. */
const drawn = (shown: Page) =>
  shown.evaluate(() => {
    const features = window.crossarmMap?.queryRenderedFeatures() ?? []
    const isSpan = ({ layer }: { layer: { id: string } }) => layer.id === 'feeder-spans'
    return { spans: features.filter(isSpan).length, all: features.length }
  })

/** Addresses of the files that the browser keeps, once all of them are there. */
const shellIsKept = (shown: Page) =>
  shown.evaluate(async () => {
    await navigator.serviceWorker.ready
    const names = await caches.keys()
    const kept = await Promise.all(
      names.map(async (name) => (await (await caches.open(name)).keys()).map(({ url }) => url)),
    )
    return kept.flat()
  })

/** What lies in a table of the device's database. */
const rowsOnDevice = <Row>(shown: Page, table: string) =>
  shown.evaluate(async (name) => {
    const opening = indexedDB.open('crossarm')
    const database = await new Promise<IDBDatabase>((resolve) => {
      opening.onsuccess = () => resolve(opening.result)
    })
    const asked = database.transaction(name).objectStore(name).getAll()
    const rows = await new Promise<unknown[]>((resolve) => {
      asked.onsuccess = () => resolve(asked.result)
    })
    database.close()
    return rows
  }, table) as Promise<Row[]>

describe('the pages without the server', () => {
  it('come up after a cold start on the feeder that was taken offline, and refresh when it is back', {
    timeout: WHOLE_WALK_MS,
  }, async () => {
    let shown = await phone.open(server.url)
    await shown.getByRole('button', { name: 'Enter as crew' }).click()
    await shown.getByRole('tab', { name: 'Jobs' }).waitFor()
    await shown.goto(page())
    await shown.getByText(/^On this device: nothing taken offline/).click()
    await shown.getByRole('button', { name: 'Take offline' }).last().click()
    await shown.getByText('✓ On this device').waitFor()
    await keepPicture(shown, 'crew-taken-offline')
    const kept = await shellIsKept(shown)
    expect(kept.some((url) => url.includes('/index.html'))).toBe(true)
    expect(kept.some((url) => url.endsWith('.mjs'))).toBe(true)
    expect(kept.filter((url) => url.includes('/api/') || url.endsWith('.map'))).toEqual([])

    await phone.cutOff(true)
    await server.stop()
    await phone.close()
    shown = await phone.open(page())
    await shown.getByText('No connection.').waitFor()
    await mapIsIdle(shown)
    const map = await drawn(shown)
    expect(map.spans).toBeGreaterThan(0)
    // The land comes from the device too.
    expect(map.all).toBeGreaterThan(map.spans)
    await shown.getByText(/^On this device: 1 copy/).waitFor()
    await keepPicture(shown, 'crew-cold-start')
    // The other parts of the page, which are loaded when asked for, are on the device as well.
    await shown.getByRole('tab', { name: 'Find a pole' }).click()
    await shown.getByLabel('Pole number, job or coordinates').waitFor()

    const refreshed = shown.waitForResponse(
      (answer) => answer.ok() && answer.url().endsWith(`/api/feeders/${FEEDER}`),
      { timeout: WHOLE_WALK_MS },
    )
    server = await startServer({ dataFolder, port })
    await phone.cutOff(false)
    await refreshed
    await shown.getByText('No connection.').waitFor({ state: 'detached' })
    // A server that is being stopped or started says so to whoever asks.
    expect(phone.complaints.filter((text) => !/status of 503/.test(text))).toEqual([])
  })

  it('show nothing of a person who has signed out, with the server away or not', {
    timeout: WHOLE_WALK_MS,
  }, async () => {
    let shown = await phone.open(page())
    await shown.getByRole('tab', { name: 'Jobs' }).waitFor()
    await shown.getByRole('button', { name: 'More' }).click()
    await shown.locator('.account-menu-button').click()
    await shown.getByRole('button', { name: 'Leave, or enter as another' }).click()
    await shown.getByRole('button', { name: 'Enter as crew' }).waitFor()
    await server.stop()
    await phone.close()
    shown = await phone.open(page())
    await shown.getByText('The server does not answer.').waitFor()
    expect(await shown.getByRole('tab', { name: 'Jobs' }).count()).toBe(0)
    const left = await rowsOnDevice<{ personId: string }>(shown, 'copies')
    expect(left.filter(({ personId }) => personId !== 'anyone')).toEqual([])
  })
})

describe('a newer version of the pages', () => {
  it('waits until the person takes it, and leaves alone what is not sent', {
    timeout: WHOLE_WALK_MS,
  }, async () => {
    server = await startServer({ dataFolder, port })
    const between = await passThrough(server.url)
    const address = `${between.url}/?feeder=${FEEDER}&person=crew`
    let shown = await phone.open(between.url)
    await shown.getByRole('button', { name: 'Enter as crew' }).click()
    await shown.getByRole('tab', { name: 'Jobs' }).waitFor()
    await shellIsKept(shown)
    // An item that no version sends before its own time, so that it has to stay.
    const later = { id: 'from-a-later-version', order: 1, form: 99, name: 'sendEntries' }
    await leaveInOutbox(shown, [{ ...later, input: {} }])

    between.append('/service-worker.js', '// of the next version')
    shown = await phone.open(address)
    const isReady = shown.getByText('A newer version of the program is ready.')
    await isReady.waitFor()
    await shown.reload()
    await isReady.waitFor()
    await Promise.all([
      shown.waitForEvent('load'),
      shown.getByRole('button', { name: 'Change to the new version' }).click(),
    ])
    await shown.getByRole('tab', { name: /^Send \(1\)/ }).waitFor()
    expect(await isReady.count()).toBe(0)
    expect(await rowsOnDevice(shown, 'outbox')).toMatchObject([{ id: 'from-a-later-version' }])
    await between.stop()
  })
})

describe('two windows on one device', () => {
  it('send what waits once, and both say so', { timeout: WHOLE_WALK_MS }, async () => {
    const feeder = await readDemoFeeder(FEEDER)
    const pole = feeder.poles[0]?.id ?? ''
    const address = `${server.url}/?feeder=${FEEDER}&person=crew`
    const one = await phone.open(server.url)
    await one.evaluate(() =>
      fetch('/api/demo/enter', {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: '{"role":"crew"}',
      }),
    )
    const two = await one.context().newPage()
    await Promise.all([one.goto(address), two.goto(address)])
    for (const shown of [one, two]) await shown.getByRole('tab', { name: 'Jobs' }).waitFor()
    const sent: string[] = []
    one.context().on('request', (request) => {
      if (request.method() === 'POST' && request.url().endsWith('/protections')) {
        sent.push(request.headers()['idempotency-key'] ?? '')
      }
    })
    await phone.cutOff(true)
    const ids = ['made-here-1', 'made-here-2', 'made-here-3']
    const body = { pole, kind: 'cover', what: 'cap', state: 'on', on: '2026-05-01' }
    const input = { params: { feederId: FEEDER }, body }
    await leaveInOutbox(
      one,
      ids.map((id, order) => ({ id, order, form: 1, name: 'addProtection', input })),
    )
    await phone.cutOff(false)
    for (const shown of [one, two]) {
      await shown.getByRole('tab', { name: 'Send' }).click()
      await expect
        .poll(
          async () =>
            (await rowsOnDevice<{ state: string }>(shown, 'outbox')).map(({ state }) => state),
          {
            timeout: WHOLE_WALK_MS,
          },
        )
        .toEqual(['kept', 'kept', 'kept'])
    }
    expect(sent).toEqual(ids)
  })
})

interface LeftItem {
  readonly id: string
  readonly order: number
  readonly form: number
  readonly name: string
  readonly input: unknown
}

/** Puts items into the device's outbox as a page does that is closed right after. */
function leaveInOutbox(shown: Page, items: readonly LeftItem[]): Promise<void> {
  return shown.evaluate(async (left) => {
    const opening = indexedDB.open('crossarm')
    const database = await new Promise<IDBDatabase>((resolve) => {
      opening.onsuccess = () => resolve(opening.result)
    })
    const change = database.transaction('outbox', 'readwrite')
    for (const item of left) {
      change.objectStore('outbox').put({
        ...{ personId: 'demo-crew', enteredAt: new Date().toISOString(), what: 'A step' },
        ...{ key: item.id, hasFile: false, after: [], state: 'waiting', tries: 0, ...item },
      })
    }
    await new Promise<void>((resolve) => {
      change.oncomplete = () => resolve()
    })
    database.close()
  }, items)
}
