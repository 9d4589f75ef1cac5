import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import sharp from 'sharp'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Attachment } from '#contract/attachments.ts'
import type { FeederAnswer } from '#contract/feeders.ts'
import type { Job, JobAnswer } from '#contract/jobs.ts'
import type { ProtectionRecord } from '#contract/protections.ts'
import type { StepDone } from '#domain/jobs/job-entry.ts'
import { runOf, stepsCount } from '#domain/jobs/job-run.ts'
import {
  type AskAs,
  askAs,
  issueChangeOut,
  moveJob,
  oneUnitFeeder,
} from '../support/change-out-job.ts'
import { keepPicture, seriousFindings } from '../support/desk-page.ts'
import { type FieldPhone, fieldPhone } from '../support/field-phone.ts'
import { findFreePort } from '../support/free-port.ts'
import { fillStep, isStepDone, passSteps, placeOf, stepOf } from '../support/pass-steps.ts'
import { type RunningServer, startServer } from '../support/start-server.ts'
import { entriesThrough } from '../support/walk-job.ts'

/** A whole day's work, step by step, on a browser that shares its machine. */
const WHOLE_JOB_MS = 400_000

const feeder = oneUnitFeeder('changed')
let dataFolder: string
let port: number
let server: RunningServer
let phone: FieldPhone
let ask: AskAs
let job: Job
let steps: StepDone[]

beforeAll(async () => {
  dataFolder = await mkdtemp(join(tmpdir(), 'crossarm-change-out-'))
  port = await findFreePort()
  server = await startServer({ dataFolder, port })
  ask = askAs(server.url)
  job = await issueChangeOut(ask, feeder)
  steps = entriesThrough(job.plan).filter(isStepDone)
  phone = await fieldPhone()
})
afterAll(async () => {
  await phone?.throwAway()
  await server?.stop()
  await rm(dataFolder, { recursive: true, force: true })
})

const address = (view: string) =>
  `${server.url}/?feeder=${feeder.header.id}&person=crew&view=${encodeURIComponent(view)}`
const jobPage = () => address(`job:${job.id}`)
const stepsPage = () => address(`job:${job.id}:steps:P3`)
const asLeftPage = () => address(`job:${job.id}:as-left`)

/** A photograph with its place in its metadata, so many thousandths of a degree north of the pole. */
function photoAt(seconds: string): Promise<Buffer> {
  const picture = { width: 320, height: 240, channels: 3, background: 'grey' } as const
  return sharp({ create: picture })
    .withExif({
      IFD2: { DateTimeOriginal: '2026:11:20 08:15:30', OffsetTimeOriginal: '-07:00' },
      IFD3: {
        GPSLatitudeRef: 'N',
        GPSLatitude: `43/1 0/1 ${seconds}`,
        GPSLongitudeRef: 'W',
        GPSLongitude: longitudeOfPole(),
      },
    })
    .jpeg()
    .toBuffer()
}

/** Degrees, minutes and hundredths of seconds of the pole, west of Greenwich. */
function longitudeOfPole(): string {
  const west = -(feeder.poles.find(({ id }) => id === 'P3')?.at[0] ?? 0)
  const minutes = (west % 1) * 60
  const seconds = Math.round((minutes % 1) * 6000)
  return `${Math.floor(west)}/1 ${Math.floor(minutes)}/1 ${seconds}/100`
}

async function takePhoto(page: Page, name: string, buffer: Buffer, what: string): Promise<void> {
  const chooser = page.locator('input[type=file][aria-label="Choose a photo"]')
  await chooser.setInputFiles({ name, mimeType: 'image/jpeg', buffer })
  const form = page.getByRole('form', { name: 'This photo' })
  await form.getByLabel('What it shows').fill(what)
  await form.getByRole('button', { name: 'Keep the photo' }).click()
  await form.waitFor({ state: 'detached' })
}

/** Draws in the box as a finger does. */
async function drawSignature(page: Page): Promise<void> {
  const box = page.getByRole('img', { name: /^Box to draw a signature/ })
  await box.scrollIntoViewIfNeeded()
  const room = await box.boundingBox()
  if (!room) throw new Error('Expected the box of the signature to be shown.')
  await page.mouse.move(room.x + 30, room.y + 60)
  await page.mouse.down()
  await page.mouse.move(room.x + 90, room.y + 20, { steps: 5 })
  await page.mouse.move(room.x + 180, room.y + 70, { steps: 5 })
  await page.mouse.up()
}

describe('a change-out without signal', () => {
  it('is taken offline, done, survives a killed browser, arrives and stands in the feeder', {
    timeout: WHOLE_JOB_MS,
  }, async () => {
    let page = await phone.open(server.url)
    await page.getByRole('button', { name: /crew/i }).first().click()
    await page.getByRole('tab', { name: 'Jobs' }).waitFor()
    await page.goto(jobPage())
    await page
      .locator('summary')
      .filter({ hasText: /^Take offline/ })
      .click()
    await page.getByRole('button', { name: 'Take offline' }).click()
    await page.getByText('✓ On this device').waitFor()
    await page.evaluate(async () => {
      await navigator.serviceWorker.ready
    })

    await phone.cutOff(true)
    await server.stop()
    page = await phone.open(jobPage())
    await page.getByRole('heading', { name: 'Change the bank at P3' }).waitFor()
    await page.getByText('No connection.').waitFor()
    await tellWhatIsNotHere(page)
    await page.goto(stepsPage())
    await page.getByRole('button', { name: 'Start the work' }).click()
    await page.getByRole('heading', { name: `Step 1 of ${steps.length}` }).waitFor()
    await keepPicture(page, 'crew-step-phone')

    const middle = steps.findIndex(({ stepId }) => stepId === 'take-down')
    await passSteps(page, steps.slice(0, middle))
    await page.getByText('Photos', { exact: true }).click()
    await takePhoto(page, 'nameplate.jpg', await photoAt('72/100'), 'nameplate, B phase')
    const photos = page.getByRole('list', { name: 'Photos' })
    await photos.getByText('nameplate, B phase').waitFor()
    // 0.72 seconds of arc north of the pole, at 30.89 m a second: 22 m, 73 ft.
    await photos.getByText('Taken 73 ft from the pole.').waitFor()
    await photos.getByText('waiting on this device').waitFor()
    const here = await placeOf(page)

    await phone.crash()
    page = await phone.open(stepsPage())
    await stepOf(page).waitFor()
    expect(await placeOf(page)).toBe(here)
    const next = steps[middle]
    if (!next) throw new Error('Expected a step to take the unit down.')
    await fillStep(page, next)
    await page.reload()
    await stepOf(page).waitFor()
    const serial = stepOf(page).locator('[data-ask="serial"]').getByRole('textbox')
    expect(await serial.inputValue()).toBe(String(next.values.serial))
    await stepOf(page).getByRole('button', { name: 'Done, next step' }).click()
    await passSteps(page, steps.slice(middle + 1, -1))
    const last = steps.at(-1)
    if (!last) throw new Error('Expected a last step.')
    await fillStep(page, last)
    await stepOf(page).getByRole('button', { name: 'Done, next step' }).click()
    await page.getByText(`All ${steps.length} steps at pole P3 are gone through`).waitFor()
    await page.getByText('Photos', { exact: true }).click()
    await takePhoto(page, 'far.jpg', await photoAt('3600/100'), 'from the road')
    await page.getByText('is it of this pole?').waitFor()

    await page.goto(asLeftPage())
    const form = page.getByRole('form', { name: 'As left' })
    await form.getByLabel('Tap left (steps)').fill('6')
    await form.getByLabel('Rated current (A)').fill('219')
    await form.getByLabel('Time delay (s)').fill('45')
    await page.getByText('≠ Planned: 30 s.').waitFor()
    for (const done of await form.getByRole('button', { name: 'Done', exact: true }).all()) {
      await done.click()
    }
    await form.getByLabel('Signed by').fill('K. Lane')
    await drawSignature(page)
    await keepPicture(page, 'crew-as-left-phone')
    expect(await seriousFindings(page)).toEqual([])
    await form.getByRole('button', { name: 'Enter as left' }).click()
    await page.getByText('waiting on this device').first().waitFor()
    await page.getByRole('img', { name: 'Drawn signature of K. Lane' }).waitFor()
    await page.getByRole('button', { name: 'The work is done' }).click()
    await page.getByText('The crew has said that the work is done.').first().waitFor()
    await page.goto(address('outbox'))
    await page.getByText('The server does not answer.').waitFor()
    // The start, the steps, two photos with their notes, what was left, and the end.
    const waiting = 1 + steps.length + 4 + 1 + 1
    await page.getByRole('heading', { name: `${waiting} things wait on this device.` }).waitFor()
    await page
      .getByRole('region', { name: job.title })
      .getByText(/^Waiting on this device/)
      .waitFor()
    await keepPicture(page, 'crew-outbox-phone')
    const requests: string[] = []
    page.on('request', (request) => {
      if (request.method() === 'POST' && request.url().endsWith('/entries')) {
        requests.push(request.url())
      }
    })

    server = await startServer({ dataFolder, port })
    await phone.cutOff(false)
    await arrived(page)
    // The steps between two photos go together.
    expect(requests.length).toBeLessThan(12)
    const { job: done, entries, asLeft } = await ask<JobAnswer>('crew', `/api/jobs/${job.id}`)
    expect(done.state).toBe('work done')
    const run = runOf(
      job.plan,
      entries.map(({ entry }) => entry),
    )
    expect(run.refused).toEqual([])
    expect(stepsCount(run.run)).toEqual({
      done: steps.length,
      leftOut: 0,
      all: steps.length,
    })
    expect(asLeft?.asLeft.signaturePath).toMatch(/^M[\d.]+ [\d.]+L/)
    const files = await ask<Attachment[]>(
      'crew',
      `/api/feeders/${feeder.header.id}/attachments?attachedTo=job&attachedToId=${job.id}`,
    )
    const named = entries.flatMap(({ entry }) =>
      entry.kind === 'photo' ? [entry.attachmentId] : [],
    )
    expect(files.map(({ id }) => id).toSorted()).toEqual(named.toSorted())

    const closed = await moveJob(ask, job.id, 'closed')
    expect(closed.feederVersionAfter).toBe(closed.feederVersion + 1)
    const after = await ask<FeederAnswer>('planner', `/api/feeders/${feeder.header.id}`)
    const bank = after.feeder.equipment.find(({ id }) => id === 'R3')
    expect(bank).toMatchObject({ tapB: 6, delayS: 45, ratingA: 219, phases: 'B' })
    const items = await ask<ProtectionRecord[]>(
      'coordinator',
      `/api/feeders/${feeder.header.id}/protections`,
    )
    const planned = job.plan.poles.flatMap(({ measures }) => measures.map(({ kind }) => kind))
    const standing = items.filter(({ pole, state }) => pole === 'P3' && state === 'on')
    expect(planned.length).toBeGreaterThan(0)
    expect(standing).toHaveLength(planned.length)
    expect(phone.complaints).toEqual([])
  })
})

/** A job and a feeder that are not on the device say so, each with the way back. */
async function tellWhatIsNotHere(page: Page): Promise<void> {
  const walk = (to: string) =>
    page.evaluate((next) => {
      window.history.pushState(null, '', next)
      window.dispatchEvent(new PopStateEvent('popstate'))
    }, to)
  await walk(address('job:never-opened'))
  await page.getByRole('heading', { name: 'This job was not taken offline' }).waitFor()
  await page.getByRole('button', { name: 'All jobs' }).click()
  await page.getByRole('list', { name: 'Jobs to do' }).waitFor()
  await walk(`${server.url}/?feeder=thimble&person=crew`)
  await page.getByRole('heading', { name: 'This feeder was not taken offline' }).waitFor()
  await page.getByRole('button', { name: 'Go back' }).click()
  await page.getByRole('list', { name: 'Jobs to do' }).waitFor()
}

/** Waits until nothing waits any more; whoever is asked to signs in again. */
async function arrived(page: Page): Promise<void> {
  const nothing = page.getByRole('heading', { name: /^Nothing waits to be sent/ })
  const enter = page.getByRole('button', { name: /crew/i }).first()
  await nothing.or(enter).first().waitFor({ timeout: 120_000 })
  if (!(await nothing.isVisible())) await enter.click()
  await nothing.waitFor({ timeout: 120_000 })
}
