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
   * Opens the page with these parameters (`&person=crew…`), as new to the browser. The demo was
   * entered before, as the person in the parameters or as `role`.
   */
  readonly open: (parameters?: string, options?: DeskOptions, role?: DemoRole) => Promise<DeskPage>
  /**
   * As `open`, but goes on in the page that an earlier test with the same options and role left,
   * as by a link: for tests that find their way from wherever the page stands.
   */
  readonly walk: (parameters?: string, options?: DeskOptions, role?: DemoRole) => Promise<DeskPage>
  /** Opens the page as somebody who has not entered yet. */
  readonly visit: (path?: string, options?: DeskOptions) => Promise<DeskPage>
  /** Asks the server beside the page, as one of the people of the demo. */
  readonly ask: (path: string, asked?: Asked) => Promise<Response>
  /** Address of the running server, without a slash at the end. */
  readonly url: () => string
}

/** A window that stays open for the tests after the one that opened it. */
interface Seat {
  readonly desk: DeskPage
  readonly optionsText: string
  readonly role: DemoRole | null
  isTaken: boolean
}

/**
 * One server and one browser for the tests of a file. Its windows are used again by later tests
 * that open one with the same options: a new one costs half as much again.
 *
 * @param usual how its pages are opened, unless a test says otherwise
 */
export function deskSession(choices?: ServerChoices, usual: DeskOptions = {}): DeskSession {
  let server: RunningServer
  let browser: Browser
  let seats: Seat[] = []
  const cookies = new Map<DemoRole, string>()

  beforeAll(async () => {
    server = await startServer(choices)
    browser = await launchChromium()
  })
  afterEach(({ task }) => {
    for (const seat of seats) seat.isTaken = false
    // Of a test that failed it is not known what it left.
    if (task.result?.state === 'fail') return closeAll()
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
  const closeAll = async () => {
    await Promise.all(seats.splice(0).map(({ desk }) => desk.close()))
  }
  const take = (optionsText: string, role?: DemoRole) => {
    const free = seats.filter((seat) => !seat.isTaken && seat.optionsText === optionsText)
    const seat = role ? free.find((each) => each.role === role) : free[0]
    if (seat) seat.isTaken = true
    return seat
  }
  const openAt = async (path: string, options: DeskOptions, role: DemoRole | null) => {
    const chosen = { ...usual, ...options }
    const optionsText = JSON.stringify(chosen)
    const cookie = role ? await enterDemo(server.url, role) : ''
    const seat = take(optionsText)
    if (seat) {
      await seat.desk.openAnew(server.url + path, cookie)
      seats = [...seats.filter((each) => each !== seat), { ...seat, role }]
      return seat.desk
    }
    const desk = await openDesk(browser, server.url + path, chosen, cookie)
    seats.push({ desk, optionsText, role, isTaken: true })
    return desk
  }
  const open: DeskSession['open'] = (parameters = '', options = {}, role = roleOf(parameters)) =>
    openAt(`/?expose=map${parameters}`, options, role)

  return {
    url: () => server.url,
    open,
    walk: async (parameters = '', options = {}, role = roleOf(parameters)) => {
      const seat = take(JSON.stringify({ ...usual, ...options }), role)
      if (!seat) return open(parameters, options, role)
      await seat.desk.walkTo(`${server.url}/?expose=map${parameters}`)
      return seat.desk
    },
    visit: (path = '/', options = {}) => openAt(path, options, null),
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
