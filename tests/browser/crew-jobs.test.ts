import { readFile } from 'node:fs/promises'
import type { Locator, Page } from 'playwright-core'
import encodeQR from 'qr'
import sharp from 'sharp'
import { beforeAll, describe, expect, it } from 'vitest'
import type { DemoRole } from '#contract/account.ts'
import type { Job, JobAnswer } from '#contract/jobs.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import { readDemoFeeder } from '../support/demo-feeder.ts'
import { keepPicture, mapIsIdle, seriousFindings } from '../support/desk-page.ts'
import { deskSession } from '../support/desk-session.ts'
import { lowContrast, overflowPx, smallTargets } from '../support/gloves-and-sun.ts'

const session = deskSession()
const SMALL_PHONE = { viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true }

let skillet: Feeder
let thimble: Feeder
let changeOut: Job
let round: Job

beforeAll(async () => {
  skillet = await readDemoFeeder('skillet')
  thimble = await readDemoFeeder('thimble')
  changeOut = await issue('skillet', {
    title: 'Change out the Anvil bank',
    dueOn: '2020-01-02',
    origin: {
      kind: 'by hand',
      jobKind: 'change out a bank',
      poles: ['S-144'],
      regulatorId: 'regulator-S-144',
    },
  })
  round = await issue('thimble', {
    title: 'Covers along the creek',
    dueOn: '2099-01-02',
    origin: { kind: 'by hand', jobKind: 'retrofit round', poles: ['T-60', 'T-45', 'T-80'] },
  })
})

async function ask<Answer>(role: DemoRole, path: string, body?: unknown): Promise<Answer> {
  const method = body === undefined ? 'GET' : 'POST'
  const answer = await session.ask(path, { role, method, body })
  if (!answer.ok) throw new Error(`${path}: ${await answer.text()}`)
  return answer.json() as Promise<Answer>
}

/** Drafts a job and has the supervisor issue it. */
async function issue(feederId: string, body: unknown): Promise<Job> {
  let job = await ask<Job>('planner', `/api/feeders/${feederId}/jobs`, body)
  for (const to of ['approved', 'issued']) {
    job = await ask<Job>('supervisor', `/api/jobs/${job.id}/move`, { version: job.version, to })
  }
  return job
}

const open = (rest = '', options = {}) =>
  session.open(`&feeder=skillet&person=crew${rest}`, { ...SMALL_PHONE, ...options })
const openJob = (job: Job, options = {}) =>
  session.open(`&feeder=${job.feederId}&person=crew&view=job:${job.id}`, {
    ...SMALL_PHONE,
    ...options,
  })
const rows = (page: Page) => page.getByRole('list', { name: 'Jobs to do' }).getByRole('button')
const jobArticle = (page: Page, job: Job) => page.getByRole('article', { name: `Job ${job.title}` })
const fold = (page: Page, title: string | RegExp) => page.locator('summary', { hasText: title })

function placeOf(feeder: Feeder, id: string) {
  const pole = feeder.poles.find((one) => one.id === id)
  if (!pole) throw new Error(`The demo has no pole ${id}.`)
  const [longitude, latitude] = pole.at
  return { longitude, latitude }
}

describe('the jobs of the crew', () => {
  it('stand first on its desk, late ones before others, of all feeders', async () => {
    const { page, complaints } = await open()
    await page.getByText(/^\d+ jobs to do, due first\.$/).waitFor()
    const [first] = await rows(page).allTextContents()
    expect(first).toContain(changeOut.title)
    expect(first).toMatch(/\d+ days late/)
    expect(first).toContain('Issued')
    expect(first).toContain('Not on this device')
    const other = rows(page).filter({ hasText: round.title })
    expect(await other.textContent()).toContain('on Thimble feeder')
    await keepPicture(page, 'crew-jobs-phone')
    expect(complaints).toEqual([])
  })

  it('come nearest first where the device tells its place', async () => {
    const { page } = await open('', {
      geolocation: { ...placeOf(thimble, 'T-60'), accuracy: 6 },
      permissions: ['geolocation'],
    })
    await page.getByRole('button', { name: /Nearest first/ }).click()
    await page.getByText(/^\d+ jobs to do, nearest first\.$/).waitFor()
    const [first] = await rows(page).allTextContents()
    expect(first).toContain(round.title)
    expect(first).toMatch(/\d ft, /)
  })

  it('can be worked where the place is kept back, and the page says what to do', async () => {
    const { page } = await open()
    await page.getByRole('button', { name: /Nearest first/ }).click()
    await page.getByText('does not let this page know your position').waitFor()
    await rows(page).filter({ hasText: changeOut.title }).click()
    await jobArticle(page, changeOut).waitFor()
  })

  it('of another feeder open that feeder', async () => {
    const { page } = await open()
    await rows(page).filter({ hasText: round.title }).click()
    await jobArticle(page, round).waitFor()
    expect(new URL(page.url()).searchParams.get('feeder')).toBe('thimble')
  })

  it('are found by a scrap of their title, and from their pole', async () => {
    const { page } = await open('&view=pole%20finder')
    await page.getByLabel('Pole number, job or coordinates').fill('anvil')
    const found = page.getByRole('list', { name: 'Jobs found' }).getByRole('button')
    await found.filter({ hasText: changeOut.title }).click()
    await jobArticle(page, changeOut).waitFor()
    const { page: other } = await open('&pole=S-144')
    const here = other.getByRole('list', { name: 'Jobs at this pole' }).getByRole('button')
    await here.filter({ hasText: changeOut.title }).click()
    await jobArticle(other, changeOut).waitFor()
  })
})

describe('the page of a job', () => {
  it('brings the map to its poles, in the order to go, with the way between', async () => {
    const { page } = await openJob(round, { viewport: { width: 1280, height: 800 } })
    await jobArticle(page, round).getByText('3 poles, in the order to go').waitFor()
    const titles = await page.locator('.job-stop > summary').allTextContents()
    // T-60 lies between the other two.
    expect(titles[1]).toContain('T-60')
    expect(titles[1]).toMatch(/from the one before/)
    await mapIsIdle(page)
    const drawn = await page.evaluate(() => {
      const map = window.crossarmMap
      const stops = map?.queryRenderedFeatures({ layers: ['crew-job-stops'] }) ?? []
      return [...new Set(stops.map(({ properties }) => String(properties.pole)))].sort()
    })
    expect(drawn).toEqual(['T-45', 'T-60', 'T-80'])
    await keepPicture(page, 'crew-round-desktop')
  })

  it('tells access, side of the road and neighbours of its pole, and the needle from the device', async () => {
    const { longitude, latitude } = placeOf(skillet, 'S-144')
    const { page } = await openJob(changeOut, {
      geolocation: { longitude, latitude: latitude - 0.002, accuracy: 6 },
      permissions: ['geolocation'],
    })
    await page.getByRole('button', { name: 'Show the way: use my position' }).click()
    await page
      .locator('.crew-way')
      .getByText(/ft, 0° true, north/)
      .waitFor()
    await page
      .getByRole('region', { name: 'Access' })
      .getByText(/side of Skillet Road/)
      .waitFor()
    await fold(page, 'Is it the right pole?').click()
    const next = page.getByRole('region', { name: 'Next poles' })
    await next.getByText('S-143', { exact: true }).waitFor()
    await next.getByText('S-145', { exact: true }).waitFor()
  })

  it('follows the amps and taps that the crew reads off, solved on the device', async () => {
    const { page, complaints } = await openJob(changeOut)
    await fold(page, 'What meters should show').click()
    const read = page.getByRole('region', { name: 'As you read it' })
    const answer = read.getByRole('status', { name: 'Expected for what you read' })
    const phaseA = read.getByRole('group', { name: 'Phase A' })
    await phaseA.getByLabel('Tap').selectOption('8')
    await phaseA.getByLabel('Amps').fill('20')
    const light = await rowOfPhaseA(answer, '8 raise', /^20$/)
    await phaseA.getByLabel('Amps').fill('60')
    const heavy = await rowOfPhaseA(answer, '8 raise', /^60$/)
    expect(heavy.sourceV).toBeLessThan(light.sourceV)
    // IEEE C57.15: a step is 5/8 %; of type B the ratio is 1 / (1 − 0.00625 n), here for 8 raise.
    for (const { sourceV, loadV } of [light, heavy]) {
      expect(loadV / sourceV).toBeCloseTo(1 / (1 - 0.00625 * 8), 3)
    }
    await phaseA.getByLabel('Tap').selectOption('0')
    const neutral = await rowOfPhaseA(answer, 'neutral', /^60$/)
    expect(neutral.loadV / neutral.sourceV).toBeCloseTo(1, 3)
    await phaseA.getByLabel('Amps').fill('6o')
    await phaseA.getByText('Amps are a number').waitFor()
    await phaseA.getByLabel('Amps').fill('9000')
    await answer.getByText('No load of this feeder makes the model carry').waitFor()
    expect(complaints).toEqual([])
  })

  it('keeps what was typed and what is on the truck over a reload', async () => {
    const { page } = await openJob(changeOut)
    await fold(page, 'What meters should show').click()
    await page.getByRole('group', { name: 'Phase B' }).getByLabel('Amps').fill('33')
    await fold(page, /^Kit/).click()
    const first = page.getByRole('list', { name: 'Kit' }).getByRole('checkbox').first()
    await first.check()
    await page.getByText(/^1 of \d+ lines on the truck/).waitFor()
    await page.reload()
    await fold(page, /^Kit/).click()
    await page.getByText(/^1 of \d+ lines on the truck/).waitFor()
    await fold(page, 'What meters should show').click()
    const kept = page.getByRole('group', { name: 'Phase B' }).getByLabel('Amps')
    expect(await kept.inputValue()).toBe('33')
  })

  it('hands out its poles and gates as GPX and KML', async () => {
    const { page } = await openJob(round)
    await fold(page, 'Papers, files and link').click()
    for (const [button, ending, tag] of [
      ['Waypoints as GPX', 'gpx', 'wpt'],
      ['Waypoints as KML', 'kml', 'Placemark'],
    ] as const) {
      const waiting = page.waitForEvent('download')
      await page.getByRole('button', { name: button }).click()
      const download = await waiting
      expect(download.suggestedFilename()).toBe(`covers-along-the-creek.${ending}`)
      const text = await readFile(await download.path(), 'utf8')
      const points = await page.evaluate(
        ([xml, name]) => {
          const parsed = new DOMParser().parseFromString(xml ?? '', 'application/xml')
          if (parsed.querySelector('parsererror')) return []
          return [...parsed.getElementsByTagName(name ?? '')].map(
            (point) => `${point.getElementsByTagName('name')[0]?.textContent}`,
          )
        },
        [text, tag],
      )
      expect(points.slice(0, 3)).toContain('T-60')
      expect(points.slice(0, 3).toSorted()).toEqual(['T-45', 'T-60', 'T-80'])
      expect(points.length).toBeGreaterThan(3)
      const { longitude, latitude } = placeOf(thimble, 'T-60')
      expect(text).toContain(
        ending === 'gpx' ? `lat="${latitude}" lon="${longitude}"` : `${longitude},${latitude}`,
      )
    }
  })

  it('hands out a link that opens it for somebody else', async () => {
    const { page } = await openJob(changeOut, {
      permissions: ['clipboard-read', 'clipboard-write'],
    })
    await fold(page, 'Papers, files and link').click()
    await page.getByRole('button', { name: 'Share the link' }).click()
    await page.getByText('The link is copied.').waitFor()
    const link = await page.evaluate(() => navigator.clipboard.readText())
    const { page: other } = await session.open(`&${new URL(link).searchParams}`, SMALL_PHONE)
    await jobArticle(other, changeOut).waitFor()
  })

  it('prints its packet and its labels, and comes back', async () => {
    const { page } = await openJob(changeOut)
    await fold(page, 'Papers, files and link').click()
    await page.getByRole('button', { name: 'Packet to print' }).click()
    const packet = page.getByRole('main', { name: `Packet of the job ${changeOut.title}` })
    await packet.getByText('What can hurt').waitFor()
    await packet.getByRole('button', { name: 'Back to the job' }).click()
    await page.getByRole('button', { name: 'Labels to print' }).click()
    const labels = page.getByRole('main', { name: 'Labels of the job' })
    await labels.getByText('S-144', { exact: true }).waitFor()
    await labels.getByRole('button', { name: 'Back to the job' }).click()
    await jobArticle(page, changeOut).waitFor()
  })

  it('has one large next step, which begins the work and opens the steps', async () => {
    const begun = await issue('thimble', {
      title: 'Look at T-20',
      origin: { kind: 'by hand', jobKind: 'inspection', poles: ['T-20'] },
    })
    const { page } = await openJob(begun)
    const next = page.getByRole('button', { name: 'We are at it: start at T-20' })
    await next.waitFor()
    const box = await next.boundingBox()
    // In the lowest quarter of the screen, where a thumb reaches.
    expect(box?.y).toBeGreaterThan(740 * 0.75)
    await next.click()
    await page.getByRole('article', { name: 'Steps at pole T-20' }).waitFor()
    await expect
      .poll(async () => (await ask<JobAnswer>('crew', `/api/jobs/${begun.id}`)).job.state)
      .toBe('in the field')
    await page.getByRole('button', { name: 'Back to the job' }).click()
    await page.getByRole('button', { name: 'Start the steps at T-20' }).waitFor()
  })

  it('that is not there says so and leads back', async () => {
    const { page } = await open('&view=job:none')
    await page.getByText('The job could not be opened').waitFor()
    await page.getByRole('button', { name: 'All jobs' }).click()
    await rows(page).first().waitFor()
  })
})

describe('a label', () => {
  const link = (parameters: string) => `https://printed.example/?person=crew&${parameters}`

  async function labelFile(text: string) {
    const code = encodeQR(text, 'raw', { ecc: 'medium', border: 4 })
    const grey = Buffer.from(code.flatMap((row) => row.map((isDark) => (isDark ? 0 : 255))))
    const raw = { width: code.length, height: code.length, channels: 1 as const }
    const buffer = await sharp(grey, { raw })
      .resize(code.length * 6, code.length * 6, { kernel: 'nearest' })
      .png()
      .toBuffer()
    return { name: 'label.png', mimeType: 'image/png', buffer }
  }

  it('in a photo opens its pole, also of another feeder, or its job', async () => {
    const { page } = await open('&view=pole%20finder')
    const photo = page.getByLabel('From a photo')
    await photo.setInputFiles(await labelFile(link('feeder=thimble&pole=T-60')))
    await page.getByRole('article', { name: 'Pole T-60' }).waitFor()
    expect(new URL(page.url()).searchParams.get('feeder')).toBe('thimble')
    await page.getByRole('button', { name: 'Back to the search' }).click()
    const view = encodeURIComponent(`job:${changeOut.id}`)
    await photo.setInputFiles(await labelFile(link(`feeder=skillet&view=${view}`)))
    await jobArticle(page, changeOut).waitFor()
  })

  it('that holds only an id opens the pole of the feeder that has it', async () => {
    const { page } = await open('&view=pole%20finder')
    await page.getByLabel('From a photo').setInputFiles(await labelFile('T-45'))
    await page.getByRole('article', { name: 'Pole T-45' }).waitFor()
  })

  it('of somebody else is told and not followed; a picture without one is told as well', async () => {
    const { page } = await open('&view=pole%20finder')
    const photo = page.getByLabel('From a photo')
    await photo.setInputFiles(await labelFile('https://elsewhere.example/prize'))
    await page.getByText('The label leads to elsewhere.example').waitFor()
    const create = { width: 300, height: 200, channels: 3 as const, background: '#777777' }
    const buffer = await sharp({ create }).jpeg().toBuffer()
    await photo.setInputFiles({ name: 'grass.jpg', mimeType: 'image/jpeg', buffer })
    await page.getByText('No QR code could be read in grass.jpg').waitFor()
    expect(new URL(page.url()).searchParams.get('pole')).toBeNull()
  })

  it('is typed where the camera is denied or absent', async () => {
    const { page } = await open('&view=pole%20finder')
    await page.getByRole('button', { name: 'Scan a label' }).click()
    await page.getByText(/Type the id into the search box, or choose a photo/).waitFor()
    await page.getByRole('button', { name: 'Close' }).click()
    await page.getByRole('button', { name: 'Scan a label' }).waitFor()
  })
})

for (const colorScheme of ['light', 'dark'] as const) {
  describe(`the crew’s screens on a phone of 360 px, ${colorScheme}`, () => {
    it('have large targets, contrast of 7:1 and no sideways scrolling on jobs and finder', async () => {
      const { page } = await open('', { colorScheme })
      await rows(page).first().waitFor()
      await meetsGloves(page)
      await page.getByRole('tab', { name: 'Find a pole' }).click()
      await page.getByRole('button', { name: 'Scan a label' }).waitFor()
      await page.getByLabel('Pole number, job or coordinates').fill('145')
      await page.getByRole('list', { name: 'Poles found' }).waitFor()
      await meetsGloves(page)
    })

    it('have them on the page of a job with all its parts open', async () => {
      const { page } = await openJob(changeOut, { colorScheme })
      await jobArticle(page, changeOut).waitFor()
      for (const title of FOLDS) await fold(page, title).click()
      await page.getByRole('list', { name: 'Kit' }).waitFor()
      await meetsGloves(page)
      await keepPicture(page, `crew-job-phone-${colorScheme}`)
    })
  })
}

const FOLDS = [
  /^What meters/,
  /^What would/,
  /^One-line/,
  /^Settings/,
  /^Kit/,
  /^Take off/,
  /^Papers/,
]

/** Phase A's row of the table for what was read, once it is the one at that tap and those amps. */
async function rowOfPhaseA(answer: Locator, tap: string, amps: RegExp) {
  const row = answer.getByRole('row').filter({ hasText: new RegExp(`^A${tap}`) })
  const cells = row.getByRole('cell')
  await cells.last().filter({ hasText: amps }).waitFor()
  const [source = '', load = ''] = await cells.allTextContents()
  return { sourceV: voltsOf(source), loadV: voltsOf(load) }
}

/** Volts to neutral of a cell that also holds them on the 120 V base: "14,779123.2". */
const voltsOf = (text: string): number =>
  Number(/^(\d{1,2},\d{3})/.exec(text)?.[1]?.replace(',', ''))

async function meetsGloves(page: Page): Promise<void> {
  expect(await smallTargets(page, '.crew')).toEqual([])
  expect(await lowContrast(page, '.crew')).toEqual([])
  expect(await seriousFindings(page)).toEqual([])
  expect(await overflowPx(page, '.snap-sheet-body')).toBe(0)
}
