import type { Browser, BrowserContextOptions } from 'playwright-core'
import { afterAll, afterEach, beforeAll } from 'vitest'
import { type DeskPage, openDesk } from './desk-page.ts'
import { launchChromium } from './launch-chromium.ts'
import { type RunningServer, startServer } from './start-server.ts'

export interface DeskSession {
  /** Opens the page with these parameters (`&person=crew…`); it is closed after the test. */
  readonly open: (parameters?: string, options?: BrowserContextOptions) => Promise<DeskPage>
  /** Address of the running server, without a slash at the end. */
  readonly url: () => string
}

/** One server and one browser for the tests of a file. */
export function deskSession(): DeskSession {
  let server: RunningServer
  let browser: Browser
  let desks: DeskPage[] = []

  beforeAll(async () => {
    server = await startServer()
    browser = await launchChromium()
  })
  afterEach(async () => {
    await Promise.all(desks.map((desk) => desk.close()))
    desks = []
  })
  afterAll(async () => {
    await browser?.close()
    await server?.stop()
  })

  return {
    url: () => server.url,
    open: async (parameters = '', options = {}) => {
      const desk = await openDesk(browser, `${server.url}/?expose=map${parameters}`, options)
      desks.push(desk)
      return desk
    },
  }
}
