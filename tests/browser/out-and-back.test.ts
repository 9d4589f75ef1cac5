import type { Locator, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { FeederAnswer } from '#contract/feeders.ts'
import type { Job, JobAnswer } from '#contract/jobs.ts'
import type { Regulator } from '#domain/feeder/equipment.ts'
import type { JobKind } from '#domain/jobs/job-kind.ts'
import type { JobState } from '#domain/jobs/job-state.ts'
import { layersOfFeeder } from '../../server/layer-files/layers-of-feeder.ts'
import { bankedFeeder } from '../support/banked-feeder.ts'
import { type AskAs, askAs, moveJob } from '../support/change-out-job.ts'
import { keepPicture, seriousFindings } from '../support/desk-page.ts'
import { type FieldPhone, fieldPhone } from '../support/field-phone.ts'
import { lowContrast, overflowPx } from '../support/gloves-and-sun.ts'
import { fillStep, isStepDone, passSteps, stepOf } from '../support/pass-steps.ts'
import { type RunningServer, startServer } from '../support/start-server.ts'
import { entriesThrough } from '../support/walk-job.ts'

const FEEDER = 'out-and-back'

let server: RunningServer
let phone: FieldPhone
let ask: AskAs
let page: Page

beforeAll(async () => {
  server = await startServer()
  ask = askAs(server.url)
  const plain = bankedFeeder(FEEDER)
  const switched = (item: object) => ({ ...item, neutralSide: 'switched' }) as Regulator
  const feeder = { ...plain, equipment: plain.equipment.map(switched) }
  await ask('planner', '/api/feeders', 'POST', { layers: layersOfFeeder(feeder) })
  phone = await fieldPhone()
  page = await phone.open(server.url)
  await page.getByRole('button', { name: 'Enter as crew' }).click()
  await page.getByRole('tab', { name: 'Jobs' }).waitFor()
})
afterAll(async () => {
  await phone?.throwAway()
  await server?.stop()
})

async function issue(jobKind: JobKind, title: string) {
  const drafted = await ask<Job>('planner', `/api/feeders/${FEEDER}/jobs`, 'POST', {
    title,
    loopOhm: 0.1,
    origin: { kind: 'by hand', jobKind, poles: ['P3'], regulatorId: 'R3' },
  })
  const job = await moveJob(ask, drafted.id, 'approved', 'issued')
  return { job, steps: entriesThrough(job.plan, jobKind.slice(0, 1)).filter(isStepDone) }
}

const open = (view: string) =>
  page.goto(`${server.url}/?feeder=${FEEDER}&person=crew&view=${encodeURIComponent(view)}`)
const fold = (title: RegExp | string) => page.locator('summary').filter({ hasText: title }).first()
const switches = () => stepOf(page).locator('.unit-switches figcaption')
const bankNow = async () => {
  const { feeder } = await ask<FeederAnswer>('planner', `/api/feeders/${FEEDER}`)
  return feeder.equipment.find(({ id }) => id === 'R3') as Regulator
}

/** What a phone of 360 px shows, in both themes. */
async function expectFit(name: string): Promise<void> {
  await page.setViewportSize({ width: 360, height: 780 })
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme })
    await page.locator(`:root[data-theme="${colorScheme}"]`).waitFor()
    expect(await lowContrast(page, '.crew')).toEqual([])
    await keepPicture(page, `${name}-${colorScheme}`)
  }
  expect(await overflowPx(page, '.crew')).toBe(0)
  expect(await seriousFindings(page)).toEqual([])
}

describe('a bank of three units with switches at their neutral sides', () => {
  it('is taken out of service on the phone, and stands bypassed in the record with its taps', async () => {
    const { job, steps } = await issue('take a bank out of service', 'Take out the bank at P3')
    await open(`job:${job.id}`)
    await page.getByRole('heading', { name: 'Take out the bank at P3' }).waitFor()
    await fold('Customers while it is bypassed').click()
    await page.getByText('Customers outside the limits, on all of the feeder').waitFor()
    await expectFit('crew-take-out')
    await page.getByRole('button', { name: 'We are at it: start at P3' }).click()
    await page.getByRole('heading', { name: /^Step 1 of / }).waitFor()
    await untilIn('in the field', job.id)

    const proving = steps.findIndex(({ stepId }) => stepId === 'prove-neutral')
    await ask('supervisor', `/api/jobs/${job.id}/entries`, 'POST', {
      entries: steps.slice(0, proving),
    })
    await page.reload()
    await stepOf(page).waitFor()
    // Any of the three may be proven first.
    const units = stepOf(page).getByRole('group', { name: 'Units where this step is still to do' })
    await units.getByRole('button', { name: 'B phase' }).click()
    await switches().getByText('neutral-side switch closed').waitFor()
    const [ofB] = steps.filter(({ stepId, phase }) => stepId === 'prove-neutral' && phase === 'B')
    if (!ofB) throw new Error('Expected neutral to be proven at each unit.')
    await fillStep(page, { ...ofB, values: { ...ofB.values, indicator: 2 }, signedBy: [] })
    await stepOf(page).getByText('does not stand at neutral').waitFor()
    await passSteps(page, [ofB])
    // What is entered behind it at the server would be refused before it is there.
    await expect.poll(() => entriesAt(job.id)).toBe(proving + 1)

    const closing = job.plan.poles[0]?.sequence.steps.find(
      ({ action }) => action === 'close the bypass',
    )
    const rest = steps.filter((step) => step !== ofB)
    const until = rest.findIndex(({ stepId }) => stepId === closing?.id)
    await ask('supervisor', `/api/jobs/${job.id}/entries`, 'POST', {
      entries: rest.slice(proving, until),
    })
    await page.reload()
    await stepOf(page).getByText('Customers while it is bypassed').waitFor()
    await keepPicture(page, 'crew-before-bypass-phone')
    await ask('supervisor', `/api/jobs/${job.id}/entries`, 'POST', { entries: rest.slice(until) })
    await page.reload()
    await page.getByText(/^All \d+ steps at pole P3 are gone through/).waitFor()

    await open(`job:${job.id}`)
    await page.getByRole('button', { name: 'Write the taps and counters as left' }).click()
    const form = page.getByRole('form', { name: 'As left' })
    expect(await form.getByText('Settings of the controls').count()).toBe(0)
    // Neutral was proven at each, and so that is where they were left.
    for (const phase of ['A', 'B', 'C']) {
      const unit = await unitOf(form, phase)
      expect(await unit.getByLabel('Tap left (steps)').inputValue()).toBe('0')
    }
    await sayMeasuresDone(form)
    await form.getByLabel('Signed by').fill('K. Lane')
    await expectFit('crew-take-out-as-left')
    await form.getByRole('button', { name: 'Enter as left' }).click()
    await page.getByRole('button', { name: 'The work is done' }).click()
    await page.getByText('The crew has said that the work is done.').first().waitFor()
    await untilIn('work done', job.id)
    await moveJob(ask, job.id, 'closed')
    expect(await bankNow()).toMatchObject({ state: 'bypassed', tapA: 0, tapB: 0, tapC: 0 })
  })

  it('is returned to service, with readings before it at neutral and its settings as left', async () => {
    const { job, steps } = await issue('return a bank to service', 'Return the bank at P3')
    await open(`job:${job.id}`)
    await page.getByRole('button', { name: 'We are at it: start at P3' }).click()
    const found = job.plan.poles[0]?.sequence.steps.find(({ readsAsFound }) => readsAsFound)
    const upTo = steps.findIndex(({ stepId }) => stepId === found?.id)
    await page.getByRole('heading', { name: /^Step 1 of / }).waitFor()
    await untilIn('in the field', job.id)
    await ask('supervisor', `/api/jobs/${job.id}/entries`, 'POST', {
      entries: steps.slice(0, Math.max(0, upTo)),
    })
    await page.reload()
    await stepOf(page).waitFor()
    await switches().first().getByText('bypass closed').waitFor({ state: 'attached' })
    await open(`job:${job.id}`)
    await fold('What meters should show').click()
    await page
      .getByRole('button', { name: 'Before the work, bypassed as the bank stands' })
      .waitFor()
    await page.getByText('past the units').waitFor()
    await expectFit('crew-return')
    await ask('supervisor', `/api/jobs/${job.id}/entries`, 'POST', {
      entries: steps.slice(Math.max(0, upTo)),
    })
    await page.reload()
    await page.getByRole('button', { name: 'Write the settings and taps as left' }).click()
    const form = page.getByRole('form', { name: 'As left' })
    await form.getByLabel('Band centre (V)').fill('123')
    for (const phase of ['A', 'B', 'C']) {
      const unit = await unitOf(form, phase)
      await unit.getByLabel('Tap left (steps)').fill('4')
    }
    await sayMeasuresDone(form)
    await form.getByLabel('Signed by').fill('K. Lane')
    await (await unitOf(form, 'A')).getByLabel('Tap left (steps)').fill('40')
    await unitOf(form, 'C')
    const enter = form.getByRole('button', { name: 'Enter as left' })
    await enter.click()
    await form.getByRole('button', { name: 'A phase: Tap left: At most 16.' }).click()
    await form.getByRole('group', { name: 'A phase unit' }).locator('input:focus').fill('4')
    await form.getByText('Not entered.').waitFor({ state: 'detached' })
    await enter.click()
    await page.getByRole('button', { name: 'The work is done' }).click()
    await page.getByText('The crew has said that the work is done.').first().waitFor()
    await untilIn('work done', job.id)
    await moveJob(ask, job.id, 'closed')
    const bank = await bankNow()
    expect(bank).toMatchObject({ tapA: 4, tapB: 4, tapC: 4, bandCentreV: 123 })
    expect(bank.state ?? 'in service').toBe('in service')
    expect(phone.complaints).toEqual([])
  })
})

/** The page says so at once; the server has it a moment later. */
async function untilIn(wanted: JobState, jobId: string): Promise<void> {
  const state = async () => (await ask<JobAnswer>('crew', `/api/jobs/${jobId}`)).job.state
  await expect.poll(state).toBe(wanted)
}

async function entriesAt(jobId: string): Promise<number> {
  return (await ask<JobAnswer>('crew', `/api/jobs/${jobId}`)).entries.length
}

/** One unit of the bank is shown at a time. */
async function unitOf(form: Locator, phase: string): Promise<Locator> {
  const units = form.getByRole('group', { name: 'Units of the bank' })
  await units.getByRole('button', { name: `${phase} phase` }).click()
  return form.getByRole('group', { name: `${phase} phase unit` })
}

async function sayMeasuresDone(form: Locator): Promise<void> {
  for (const done of await form.getByRole('button', { name: 'Done', exact: true }).all()) {
    await done.click()
  }
}
