import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as sleep } from 'node:timers/promises'
import { type BrowserContext, chromium, type Page } from 'playwright-core'
import { PHONE } from './desk-page.ts'
import { findChromium } from './find-chromium.mjs'
import { HOW_TO_INSTALL } from './install-chromium.mjs'
import { CHROMIUM_FLAGS } from './launch-chromium.ts'

/** A phone of the crew: a browser with a profile of its own, which outlives the browser. */
export interface FieldPhone {
  /** Starts the browser and opens an address; what was open before is gone. */
  readonly open: (address: string) => Promise<Page>
  /** Cuts the network off, or gives it back. */
  readonly cutOff: (isCutOff: boolean) => Promise<void>
  /** The system kills the browser: nothing is saved on the way out. */
  readonly crash: () => Promise<void>
  /** The person closes the browser. */
  readonly close: () => Promise<void>
  /** For good, with its profile. */
  readonly throwAway: () => Promise<void>
  /** What the pages complained about, but for answers that it tells in its own words. */
  readonly complaints: string[]
}

/** Chromium says so of each request; the page tells it in its own words. */
const TOLD_BY_THE_PAGE =
  /net::ERR_(CONNECTION|INTERNET|FAILED|NETWORK|EMPTY|ABORTED)|a status of (401|409) \(/

export async function fieldPhone(): Promise<FieldPhone> {
  const executablePath = findChromium()
  if (!executablePath) throw new Error(HOW_TO_INSTALL)
  const folder = await mkdtemp(join(tmpdir(), 'crossarm-phone-'))
  const complaints: string[] = []
  let context: BrowserContext | null = null
  let isCutOff = false
  const close = async () => {
    await context?.close()
    context = null
  }
  return {
    complaints,
    open: async (address) => {
      await close()
      context = await chromium.launchPersistentContext(folder, {
        executablePath,
        args: CHROMIUM_FLAGS,
        viewport: PHONE,
        hasTouch: true,
        isMobile: true,
        reducedMotion: 'reduce',
      })
      await context.setOffline(isCutOff)
      const page = context.pages()[0] ?? (await context.newPage())
      page.on('pageerror', (error) => complaints.push(error.message))
      page.on('console', (message) => {
        if (message.type() === 'error' && !TOLD_BY_THE_PAGE.test(message.text())) {
          complaints.push(message.text())
        }
      })
      await page.goto(address)
      return page
    },
    cutOff: async (next) => {
      isCutOff = next
      await context?.setOffline(next)
    },
    crash: async () => {
      await killBrowserOf(context)
      await context?.close().catch(() => {})
      context = null
    },
    close,
    throwAway: async () => {
      await close()
      await rm(folder, { recursive: true, force: true })
    },
  }
}

async function killBrowserOf(context: BrowserContext | null): Promise<void> {
  const devtools = await context?.browser()?.newBrowserCDPSession()
  const processes = await devtools?.send('SystemInfo.getProcessInfo')
  const pid = processes?.processInfo.find(({ type }) => type === 'browser')?.id
  if (pid === undefined) throw new Error('Expected a browser that runs.')
  process.kill(pid, 'SIGKILL')
  while (isRunning(pid)) await sleep(20)
}

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0)
    return true
  } catch {
    return false
  }
}
