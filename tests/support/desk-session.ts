import type { Browser } from 'playwright-core'
import { afterAll, afterEach, beforeAll } from 'vitest'
import type { DemoRole } from '#contract/account.ts'
import { type DeskOptions, type DeskPage, openDesk } from './desk-page.ts'
import { enterDemo } from './enter-demo.ts'
import { launchChromium } from './launch-chromium.ts'
import { type RunningServer, type ServerChoices, startServer } from './start-server.ts'

interface Asked {
  /** Who asks; planner when left out. */
  readonly role?: DemoRole
  readonly method?: string
  readonly body?: unknown
}

export interface DeskSession {
  /**
   * Opens the page with these parameters (`&person=crew…`); it is closed after the test. The demo
   * was entered before, as the person in the parameters or as `role`.
   */
  readonly open: (parameters?: string, options?: DeskOptions, role?: DemoRole) => Promise<DeskPage>
  /** Opens the page as somebody who has not entered yet. */
  readonly visit: (path?: string, options?: DeskOptions) => Promise<DeskPage>
  /** Asks the server beside the page, as one of the people of the demo. */
  readonly ask: (path: string, asked?: Asked) => Promise<Response>
  /** Address of the running server, without a slash at the end. */
  readonly url: () => string
}

/**
 * One server and one browser for the tests of a file.
 *
 * @param usual how its pages are opened, unless a test says otherwise
 */
export function deskSession(choices?: ServerChoices, usual: DeskOptions = {}): DeskSession {
  let server: RunningServer
  let browser: Browser
  let desks: DeskPage[] = []
  const cookies = new Map<DemoRole, string>()

  beforeAll(async () => {
    server = await startServer(choices)
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

  const cookieOf = async (role: DemoRole) => {
    const known = cookies.get(role) ?? (await enterDemo(server.url, role))
    cookies.set(role, known)
    return known
  }
  const openAt = async (path: string, options: DeskOptions, cookie?: string) => {
    const desk = await openDesk(browser, server.url + path, { ...usual, ...options }, cookie)
    desks.push(desk)
    return desk
  }

  return {
    url: () => server.url,
    open: async (parameters = '', options = {}, role = roleOf(parameters)) =>
      openAt(`/?expose=map${parameters}`, options, await enterDemo(server.url, role)),
    visit: (path = '/', options = {}) => openAt(path, options),
    ask: async (path, { role = 'planner', method = 'GET', body } = {}) =>
      fetch(server.url + path, {
        method,
        headers: { cookie: await cookieOf(role), 'content-type': 'application/json' },
        ...(body !== undefined && { body: JSON.stringify(body) }),
      }),
  }
}

function roleOf(parameters: string): DemoRole {
  const person = new URLSearchParams(parameters).get('person')
  return person === 'coordinator' || person === 'crew' ? person : 'planner'
}
