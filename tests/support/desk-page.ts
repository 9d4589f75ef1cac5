import { mkdir } from 'node:fs/promises'
import { fileURLToPath } from 'node:url'
import { AxeBuilder } from '@axe-core/playwright'
import type { Browser, BrowserContext, BrowserContextOptions, Page } from 'playwright-core'

const ARTIFACTS = fileURLToPath(new URL('../../artifacts', import.meta.url))

export const DESKTOP = { width: 1440, height: 900 }
export const PHONE = { width: 390, height: 844 }

/** How long a control or a text is waited for. */
const WITHIN_MS = 60_000

/**
 * Pixels of the screen for one of the page, each way. Layout, places and texts are the same at any;
 * without a graphics card a quarter of the pixels is less to draw. `CROSSARM_TEST_SCALE=1` keeps
 * pictures that are good to look at.
 */
const SCALE = Number(process.env.CROSSARM_TEST_SCALE ?? 0.5)

export interface DeskPage {
  readonly page: Page
  /** Everything that the page complained about since it was opened. */
  readonly complaints: string[]
  /**
   * Loads an address in the same window as if it were new: nothing that was kept or set before is
   * left, and another person may have entered.
   */
  readonly openAnew: (address: string, cookie: string) => Promise<void>
  /** Goes to an address as a link inside the page does, so that nothing is loaded again. */
  readonly walkTo: (address: string) => Promise<void>
  readonly close: () => Promise<void>
}

export interface DeskOptions extends BrowserContextOptions {
  /** Without the base map, where a test is not about it. */
  readonly isWithoutLand?: boolean
}

/**
 * Opens an address in a context of its own, so that one test's position and drafts are not another's.
 *
 * @param cookie of a session that was begun before, as `name=value; name=value`
 */
export async function openDesk(
  browser: Browser,
  address: string,
  { isWithoutLand = false, ...options }: DeskOptions = {},
  cookie = '',
): Promise<DeskPage> {
  const chosen = {
    viewport: DESKTOP,
    deviceScaleFactor: SCALE,
    // Still, so that a map drawn without a graphics card is not drawn again for each step of a fade.
    reducedMotion: 'reduce',
    // Keeping the whole program on the device is the work of its own tests.
    serviceWorkers: 'block',
    ...options,
  } as const
  const context = await browser.newContext(chosen)
  context.setDefaultTimeout(WITHIN_MS)
  await context.addCookies(cookiesFor(new URL(address).origin, cookie))
  if (isWithoutLand) await context.addInitScript(answerWithoutLand)
  const page = await context.newPage()
  const complaints: string[] = []
  listen(page, complaints)
  await page.goto(address)
  return {
    page,
    complaints,
    openAnew: async (next, nextCookie) => {
      await forgetAll(context, page, new URL(next).origin)
      await page.emulateMedia({ media: null, ...mediaOf(chosen) })
      if (chosen.viewport) await page.setViewportSize(chosen.viewport)
      await context.addCookies(cookiesFor(new URL(next).origin, nextCookie))
      complaints.length = 0
      listen(page, complaints)
      await page.goto(next)
    },
    walkTo: async (next) => {
      complaints.length = 0
      await page.evaluate((to) => {
        document.body.dataset.map = 'busy'
        window.crossarmMap?.triggerRepaint()
        window.history.pushState(null, '', to)
        window.dispatchEvent(new PopStateEvent('popstate'))
      }, next)
    },
    close: () => context.close(),
  }
}

const mediaOf = ({ colorScheme, reducedMotion }: BrowserContextOptions) => ({
  colorScheme: colorScheme ?? 'light',
  reducedMotion: reducedMotion ?? 'no-preference',
})

function listen(page: Page, complaints: string[]): void {
  page.on('pageerror', (error) => complaints.push(error.message))
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text())
  })
}

/** Leaves the page and takes away what a test set on it and what the page kept. */
async function forgetAll(context: BrowserContext, page: Page, origin: string): Promise<void> {
  page.removeAllListeners()
  await page.unrouteAll({ behavior: 'ignoreErrors' })
  const others = context.pages().filter((other) => other !== page)
  await Promise.all(others.map((other) => other.close()))
  await page.evaluate(() => window.sessionStorage.clear())
  await page.goto('about:blank')
  const devtools = await context.newCDPSession(page)
  await devtools.send('Storage.clearDataForOrigin', { origin, storageTypes: 'all' })
  await devtools.detach()
  await context.clearCookies()
}

/** Runs in the page. Not a route of the test, since the browser then keeps nothing that it fetched. */
function answerWithoutLand(): void {
  const ask = window.fetch
  window.fetch = async (asked, how) =>
    /\/api\/places\/[^/]+\/land$/.test(asked instanceof Request ? asked.url : String(asked))
      ? Response.json({ layers: {} })
      : ask(asked, how)
}

function cookiesFor(url: string, cookie: string) {
  return cookie
    .split('; ')
    .filter((pair) => pair !== '')
    .map((pair) => {
      const [name = '', ...value] = pair.split('=')
      return { url, name, value: value.join('='), httpOnly: true, sameSite: 'Lax' as const }
    })
}

/** A map without a graphics card on a busy machine takes its time. */
const MAP_WITHIN_MS = 100_000

/** Waits until the map has drawn all it was given. */
export async function mapIsIdle(page: Page): Promise<void> {
  await page.waitForFunction(() => document.body.dataset.map === 'idle', null, {
    timeout: MAP_WITHIN_MS,
  })
}

/** Findings of axe that block or badly hinder people, one line each. */
export async function seriousFindings(page: Page): Promise<string[]> {
  // A page has no frames of other origins here, for which axe would open a window of its own.
  const { violations } = await new AxeBuilder({ page })
    .setLegacyMode(true)
    .options({ resultTypes: ['violations'] })
    .analyze()
  return violations
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' | ')}`)
}

/** Keeps a picture of the page in artifacts/, outside of the record. */
export async function keepPicture(page: Page, name: string): Promise<void> {
  await mkdir(ARTIFACTS, { recursive: true })
  await page.screenshot({ path: `${ARTIFACTS}/${name}.png` })
}
