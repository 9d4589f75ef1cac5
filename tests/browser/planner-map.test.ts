import { once } from 'node:events'
import { createServer, type Server } from 'node:http'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type DeskPage, mapIsIdle, openDesk } from '../support/desk-page.ts'
import { enterDemo } from '../support/enter-demo.ts'
import { launchChromium } from '../support/launch-chromium.ts'
import { type RunningServer, startServer } from '../support/start-server.ts'

const OWN_STYLE = {
  version: 8,
  sources: {},
  layers: [{ id: 'own-ground', type: 'background', paint: { 'background-color': '#dde8dd' } }],
}

let browser: Browser
let server: RunningServer
let styles: Server
let desk: DeskPage

/** A map server of the utility's own, which answers one style and nothing else. */
async function serveStyle(): Promise<string> {
  styles = createServer((request, response) => {
    const isFound = request.url === '/style.json'
    response.writeHead(isFound ? 200 : 404, {
      'content-type': 'application/json',
      'access-control-allow-origin': '*',
    })
    response.end(isFound ? JSON.stringify(OWN_STYLE) : '{}')
  }).listen(0, '127.0.0.1')
  await once(styles, 'listening')
  const address = styles.address()
  if (address === null || typeof address === 'string') throw new Error('No port was given.')
  return `http://127.0.0.1:${address.port}/style.json`
}

const layersOf = (page: Page) =>
  page.evaluate(() => window.crossarmMap?.getStyle().layers.map(({ id }) => id) ?? [])

beforeAll(async () => {
  server = await startServer({ env: { CROSSARM_MAP_STYLE: await serveStyle() } })
  browser = await launchChromium()
  const cookie = await enterDemo(server.url, 'planner')
  desk = await openDesk(browser, `${server.url}/?expose=map&feeder=thimble`, {}, cookie)
})

afterAll(async () => {
  await desk?.close()
  await browser?.close()
  await server?.stop()
  styles?.close()
})

describe('a map style of the utility’s own', () => {
  it('is drawn below the feeder in place of the built-in land', async () => {
    const { page, complaints } = desk
    await mapIsIdle(page)
    await page.waitForFunction(() => window.crossarmMap?.getLayer('feeder-spans') !== undefined)
    const layers = await layersOf(page)
    expect(layers).toContain('own-ground')
    expect(layers.filter((id) => id.startsWith('land-'))).toEqual([])
    expect(layers.indexOf('own-ground')).toBeLessThan(layers.indexOf('feeder-spans'))
    expect(complaints).toEqual([])
  })
})
