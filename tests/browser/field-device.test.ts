import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { type Browser, chromium, type Page } from 'playwright-core'
import encodeQR from 'qr'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Job } from '#contract/jobs.ts'
import {
  type AskAs,
  askAs,
  issueChangeOut,
  moveJob,
  oneUnitFeeder,
} from '../support/change-out-job.ts'
import { type DeskPage, openDesk, PHONE } from '../support/desk-page.ts'
import { enterDemo } from '../support/enter-demo.ts'
import { findChromium } from '../support/find-chromium.mjs'
import { HOW_TO_INSTALL } from '../support/install-chromium.mjs'
import { CHROMIUM_FLAGS } from '../support/launch-chromium.ts'
import { stepOf } from '../support/pass-steps.ts'
import { type RunningServer, startServer } from '../support/start-server.ts'

const FEEDER = 'field-device'
const LABEL = 'P3'

let server: RunningServer
let browser: Browser
let folder: string
let ask: AskAs
let job: Job

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'crossarm-camera-'))
  const film = join(folder, 'label.y4m')
  await writeFile(film, filmOf(LABEL))
  const executablePath = findChromium({ isWhole: true })
  if (!executablePath) throw new Error(HOW_TO_INSTALL)
  browser = await chromium.launch({
    executablePath,
    args: [
      ...CHROMIUM_FLAGS,
      '--use-fake-device-for-media-stream',
      `--use-file-for-fake-video-capture=${film}`,
    ],
  })
  server = await startServer()
  ask = askAs(server.url)
  job = await issueChangeOut(ask, oneUnitFeeder(FEEDER))
  await moveJob(ask, job.id, 'in the field')
})
afterAll(async () => {
  await browser?.close()
  await server?.stop()
  await rm(folder, { recursive: true, force: true })
})

const WIDTH = 640
const HEIGHT = 480
const FRAMES = 2

/** A camera that looks at a printed label: YUV4MPEG2, grey, the code in the middle of white paper. */
function filmOf(text: string): Buffer {
  const code = encodeQR(text, 'raw')
  const dot = Math.floor((HEIGHT * 0.7) / code.length)
  const left = Math.floor((WIDTH - dot * code.length) / 2)
  const top = Math.floor((HEIGHT - dot * code.length) / 2)
  const luma = Buffer.alloc(WIDTH * HEIGHT, 235)
  for (let y = 0; y < dot * code.length; y += 1) {
    for (let x = 0; x < dot * code.length; x += 1) {
      const isDark = code[Math.floor(y / dot)]?.[Math.floor(x / dot)] === true
      luma[(top + y) * WIDTH + left + x] = isDark ? 16 : 235
    }
  }
  const chroma = Buffer.alloc((WIDTH * HEIGHT) / 2, 128)
  const frame = Buffer.concat([Buffer.from('FRAME\n'), luma, chroma])
  const head = Buffer.from(`YUV4MPEG2 W${WIDTH} H${HEIGHT} F10:1 Ip A1:1 C420jpeg\n`)
  return Buffer.concat([head, ...Array.from({ length: FRAMES }, () => frame)])
}

async function open(view: string, permissions: string[], spies?: () => void): Promise<DeskPage> {
  const desk = await openDesk(
    browser,
    server.url,
    { viewport: PHONE, hasTouch: true, isMobile: true, isWithoutLand: true, permissions },
    await enterDemo(server.url, 'crew'),
  )
  if (spies) await desk.page.addInitScript(spies)
  await desk.page.goto(
    `${server.url}/?feeder=${FEEDER}&person=crew&view=${encodeURIComponent(view)}`,
  )
  return desk
}

describe('a label that is held before the camera', () => {
  it('opens the pole that it names, and lets go of the camera', async () => {
    const { page, close } = await open('pole finder', ['camera'])
    await page.getByRole('button', { name: 'Scan a label' }).click()
    await page.getByRole('article', { name: `Pole ${LABEL}` }).waitFor()
    expect(await page.getByLabel('Picture of the camera').count()).toBe(0)
    await close()
  })

  it('is read from a photo or typed where the browser denies camera and position, which is said', async () => {
    // With one permission named the browser denies the others.
    const { page, complaints, close } = await open('pole finder', ['clipboard-read'])
    await page.getByRole('button', { name: 'Scan a label' }).click()
    await page.getByText('The browser does not let this page use the camera.').waitFor()
    await page.getByText('Type the id into the search box, or choose a photo').waitFor()
    await page.getByRole('button', { name: 'Close', exact: true }).click()
    await page.getByRole('button', { name: /Near me/ }).click()
    await page.getByText('does not let this page know your position').waitFor()
    expect(complaints).toEqual([])
    await close()
  })
})

/** What the page asked of the device. */
interface Asked {
  readonly buzzes: number[][]
  readonly tonesHz: number[]
  readonly locks: string[]
  /** Takes the lock away, as the system does when another page is shown. */
  takeLock: () => void
}
declare global {
  interface Window {
    askedOfDevice: Asked
  }
}

/** Runs in the page: notes what it asks for in place of doing it. */
function noteWhatIsAsked(): void {
  const asked: Asked = { buzzes: [], tonesHz: [], locks: [], takeLock: () => {} }
  window.askedOfDevice = asked
  const note = <Value>(name: string, value: Value, on: object = navigator) =>
    Object.defineProperty(on, name, { value, configurable: true })
  note('vibrate', (pattern: number[]) => {
    asked.buzzes.push(pattern)
    return true
  })
  note('wakeLock', {
    request: async (kind: string) => {
      asked.locks.push(kind)
      const lock = { release: async () => {}, onrelease: null as (() => void) | null }
      asked.takeLock = () => lock.onrelease?.()
      return lock
    },
  })
  class NotedSound {
    readonly currentTime = 0
    readonly destination = {}
    createOscillator() {
      const frequency = { value: 0 }
      return {
        frequency,
        connect: (to: unknown) => to,
        start: () => asked.tonesHz.push(frequency.value),
        stop: () => {},
      }
    }
    createGain() {
      return { gain: { value: 1 }, connect: (to: unknown) => to }
    }
    async close() {}
  }
  note('AudioContext', NotedSound, window)
}

const asked = (page: Page) => page.evaluate(() => window.askedOfDevice)

/** Shows another page in front of it, or this one again. */
const show = (page: Page, state: 'visible' | 'hidden') =>
  page.evaluate((next) => {
    Object.defineProperty(document, 'visibilityState', { value: next, configurable: true })
    document.dispatchEvent(new Event('visibilitychange'))
  }, state)

describe('the steps of a job', () => {
  it('buzz and beep where the crew wants it, and keep the screen on, again after another page was shown', async () => {
    const { page, close } = await open(`job:${job.id}:steps:P3`, [], noteWhatIsAsked)
    await stepOf(page).waitFor()
    await page.getByText('The screen stays on while these steps stand open.').waitFor()
    const enter = stepOf(page).getByRole('button', { name: 'Done, next step' })
    await enter.click()
    await page.getByRole('alert').first().waitFor()
    expect(await asked(page)).toMatchObject({ buzzes: [], tonesHz: [], locks: ['screen'] })

    await page.getByText('Screen, sound and vibration').click()
    await page.getByRole('checkbox').first().check()
    await enter.click()
    // One short buzz and a high tone as a sample; stopped, three long ones and a low tone.
    await expect
      .poll(async () => (await asked(page)).buzzes)
      .toEqual([[60], [200, 100, 200, 100, 200]])
    expect((await asked(page)).tonesHz).toEqual([880, 220])

    await show(page, 'hidden')
    await page.evaluate(() => window.askedOfDevice.takeLock())
    await page.getByText('The device does not keep the screen on now').waitFor()
    expect((await asked(page)).locks).toEqual(['screen'])
    await show(page, 'visible')
    await page.getByText('The screen stays on while these steps stand open.').waitFor()
    expect((await asked(page)).locks).toEqual(['screen', 'screen'])
    await close()
  })
})
