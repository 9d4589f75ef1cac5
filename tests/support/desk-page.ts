import { mkdir } from 'node:fs/promises'
import { fileURLToPath } from 'node:url'
import { AxeBuilder } from '@axe-core/playwright'
import type { Browser, BrowserContextOptions, Page } from 'playwright-core'

const ARTIFACTS = fileURLToPath(new URL('../../artifacts', import.meta.url))

export const DESKTOP = { width: 1440, height: 900 }
export const PHONE = { width: 390, height: 844 }

export interface DeskPage {
  readonly page: Page
  /** Everything that the page complained about so far. */
  readonly complaints: string[]
  readonly close: () => Promise<void>
}

export interface DeskOptions extends BrowserContextOptions {
  /** Without the base map, where a test is not about it: drawing it is half of opening a page. */
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
  // Still, so that a map drawn without a graphics card is not drawn again for each step of a fade.
  const context = await browser.newContext({
    viewport: DESKTOP,
    reducedMotion: 'reduce',
    // Keeping the whole program on the device is the work of its own tests.
    serviceWorkers: 'block',
    ...options,
  })
  await context.addCookies(cookiesFor(new URL(address).origin, cookie))
  if (isWithoutLand) {
    await context.route('**/api/places/*/land', (asked) => asked.fulfill({ json: { layers: {} } }))
  }
  const page = await context.newPage()
  const complaints: string[] = []
  page.on('pageerror', (error) => complaints.push(error.message))
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text())
  })
  await page.goto(address)
  return { page, complaints, close: () => context.close() }
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
  const { violations } = await new AxeBuilder({ page }).analyze()
  return violations
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' | ')}`)
}

/** Keeps a picture of the page in artifacts/, outside of the record. */
export async function keepPicture(page: Page, name: string): Promise<void> {
  await mkdir(ARTIFACTS, { recursive: true })
  await page.screenshot({ path: `${ARTIFACTS}/${name}.png` })
}
