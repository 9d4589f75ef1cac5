import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Job, JobAnswer } from '#contract/jobs.ts'
import { AsLeft } from '#domain/jobs/as-left.ts'
import type { StepDone } from '#domain/jobs/job-entry.ts'
import {
  type AskAs,
  askAs,
  issueChangeOut,
  moveJob,
  oneUnitFeeder,
} from '../support/change-out-job.ts'
import { keepPicture, seriousFindings } from '../support/desk-page.ts'
import { type FieldPhone, fieldPhone } from '../support/field-phone.ts'
import { lowContrast, overflowPx, smallTargets } from '../support/gloves-and-sun.ts'
import { fillStep, isStepDone, passSteps, placeOf, stepOf } from '../support/pass-steps.ts'
import { type RunningServer, startServer } from '../support/start-server.ts'
import { entriesThrough } from '../support/walk-job.ts'

let server: RunningServer
let phone: FieldPhone
let ask: AskAs

beforeAll(async () => {
  server = await startServer()
  ask = askAs(server.url)
  phone = await fieldPhone()
  const page = await phone.open(server.url)
  await page.getByRole('button', { name: 'Enter as crew' }).click()
  await page.getByRole('tab', { name: 'Jobs' }).waitFor()
})
afterAll(async () => {
  await phone?.throwAway()
  await server?.stop()
})

interface Started {
  readonly job: Job
  /** All steps of it, those that were sent included. */
  readonly steps: readonly StepDone[]
  readonly at: (stepId: string) => StepDone
  readonly open: (page: string) => Promise<Page>
}

/** A job in the field on a feeder of its own, done up to a step. */
async function startJob(feederId: string, upTo: string | null): Promise<Started> {
  const issued = await issueChangeOut(ask, oneUnitFeeder(feederId))
  const job = await moveJob(ask, issued.id, 'in the field')
  const steps = entriesThrough(job.plan).filter(isStepDone)
  const end = upTo === null ? steps.length : steps.findIndex(({ stepId }) => stepId === upTo)
  await send(job.id, steps.slice(0, end))
  return {
    job,
    steps,
    at: (stepId) => {
      const found = steps.find((step) => step.stepId === stepId)
      if (!found) throw new Error(`Expected a step ${stepId}.`)
      return found
    },
    open: (part) => {
      const view = encodeURIComponent(`job:${job.id}:${part}`)
      return phone.open(`${server.url}/?feeder=${feederId}&person=crew&view=${view}`)
    },
  }
}

const send = (jobId: string, entries: readonly StepDone[]) =>
  ask('supervisor', `/api/jobs/${jobId}/entries`, 'POST', { entries })

/** At the narrowest phone, in both themes. */
async function expectFitForGloves(page: Page): Promise<void> {
  await page.setViewportSize({ width: 360, height: 740 })
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme })
    await page.locator(`:root[data-theme="${colorScheme}"]`).waitFor()
    expect(await lowContrast(page, '.work')).toEqual([])
  }
  expect(await smallTargets(page, '.work')).toEqual([])
  expect(await overflowPx(page, '.work')).toBe(0)
}

/** Nothing but the step, until the handle is taken down; and back. */
async function expectWholeWindow(page: Page): Promise<void> {
  const bar = page.locator('.top-bar')
  await stepOf(page).waitFor()
  const handle = page.getByRole('button', { name: /^Sheet height: whole window/ })
  await handle.focus()
  const room = await page.getByRole('region', { name: 'Sheet', exact: true }).boundingBox()
  expect(room).toMatchObject({ y: 0, height: page.viewportSize()?.height })
  expect([await bar.count(), await page.locator('.shell-tabs').count()]).toEqual([0, 0])
  await page.keyboard.press('ArrowDown')
  await bar.waitFor()
  await page.locator('.shell-tabs').waitFor()
  await page.keyboard.press('ArrowUp')
  await bar.waitFor({ state: 'detached' })
}

const enter = (page: Page) => stepOf(page).getByRole('button', { name: 'Done, next step' }).click()

describe('the hold point of neutral', () => {
  it('stops at a wrong reading and at a single sign, and no bypass is passed before it', async () => {
    const { at, open } = await startJob('neutral', 'prove-neutral')
    const page = await open('steps:P3')
    await stepOf(page).waitFor()
    const here = await placeOf(page)
    const right = at('prove-neutral')
    await fillStep(page, { ...right, values: { indicator: -3, lamp: true } })
    await stepOf(page).getByText('does not stand at neutral').waitFor()
    // 3 steps of 5/8 % of 7200 V are 135 V (IEEE C57.15, from memory); over 0.1 Ω that is 1350 A.
    const bypass = page.getByRole('region', { name: 'Across a bypass' })
    await bypass.getByText('3 steps off neutral, 135 V would stand across it').waitFor()
    await bypass.getByText('0.1 Ω would let about 1,350 A flow').waitFor()
    await bypass.getByLabel(/^Impedance of the loop/).fill('0.5')
    await bypass.getByText('0.5 Ω would let about 270 A flow').waitFor()
    await enter(page)
    await page.getByText('This hold point does not pass.').waitFor()
    await page.getByText('This hold point does not pass.').scrollIntoViewIfNeeded()
    await keepPicture(page, 'crew-neutral-stopped-phone')
    expect(await placeOf(page)).toBe(here)
    expect(await seriousFindings(page)).toEqual([])
    await expectFitForGloves(page)

    await fillStep(page, { ...right, values: { indicator: 0 }, signedBy: [] })
    await stepOf(page).locator('[data-ask="lamp"]').getByRole('button', { name: 'No' }).click()
    await enter(page)
    await page.getByRole('listitem').filter({ hasText: 'disagree prove nothing' }).waitFor()
    expect(await placeOf(page)).toBe(here)
    // Mended, nothing of the refusal is left standing.
    await fillStep(page, { ...right, signedBy: [] })
    await page.getByText('This hold point does not pass.').waitFor({ state: 'detached' })
    await bypass.getByText('All that was read says neutral').waitFor()

    await page.getByText(/^All \d+ steps$/).click()
    const list = page.getByRole('list', { name: 'All steps' })
    await list.getByRole('button', { name: /Close the bypass with one firm stroke/ }).click()
    await page.getByText('This step comes later; the steps go in their order.').waitFor()
    expect(await page.getByRole('button', { name: 'Done, next step' }).count()).toBe(0)
    await page.getByRole('button', { name: 'Back to the present step' }).click()

    await passSteps(page, [{ ...right, signedBy: [] }])
    await stepOf(page).getByText('Make the tap drive inoperative').waitFor()
    await stepOf(page).getByText('proven at neutral').waitFor()

    // What cannot be answered by a yes leads out of the step, and back into it.
    await stepOf(page).getByRole('button', { name: 'No', exact: true }).first().click()
    await stepOf(page)
      .getByRole('button', { name: /give the job back$/ })
      .first()
      .click()
    const giveBack = page.getByRole('form', { name: 'Give the job back' }).first()
    expect(await giveBack.getByLabel('Why does it go back?').inputValue()).toMatch(/: no\.$/)
    await page.getByRole('button', { name: 'Back to the step' }).click()
    await stepOf(page).getByRole('button', { name: 'No', exact: true, pressed: true }).waitFor()
    expect(phone.complaints).toEqual([])
  })
})

describe('a step that does not fit the pole', () => {
  it('is left out with a reason where it may be, and what was done otherwise is said', async () => {
    const { job, open } = await startJob('left-out', 'photos')
    const page = await open('steps:P3')
    await expectWholeWindow(page)
    await stepOf(page).getByRole('button', { name: 'Leave this step out' }).click()
    const form = page.getByRole('form', { name: 'Leave this step out' })
    await form.getByRole('button', { name: 'Left out, next step' }).click()
    await form.getByText('Say in a few words why it is left out.').waitFor()
    await form.getByLabel('Why is it left out?').fill('The camera is broken')
    await form.getByRole('button', { name: 'Demo crew' }).click()
    await form.getByRole('button', { name: 'Left out, next step' }).click()
    await stepOf(page).getByText('Take down cover-up and signs').waitFor()
    expect(await page.getByRole('button', { name: 'Leave this step out' }).count()).toBe(0)
    await page.getByText('Say what was different').click()
    const said = page.getByRole('form', { name: 'Say what was different' })
    await said.getByLabel(/^What was wrong/).fill('The tag on the bypass was missing')
    await said.getByRole('button', { name: 'Enter as deviation' }).click()
    const kinds = async () => {
      const { entries } = await ask<JobAnswer>('crew', `/api/jobs/${job.id}`)
      return entries.slice(-2).map(({ entry }) => entry.kind)
    }
    await expect.poll(kinds).toEqual(['step left out', 'deviation'])
  })
})

describe('a step that another device entered, too', () => {
  it('is shown as refused with why, and stays in view until it is set aside', async () => {
    const { job, at, open } = await startJob('twice', 'work-zone')
    const page = await open('steps:P3')
    await stepOf(page).waitFor()
    await phone.cutOff(true)
    await passSteps(page, [at('work-zone')])
    await send(job.id, [at('work-zone')])
    await phone.cutOff(false)
    const refused = page.getByRole('region', { name: 'Refused entries' })
    await refused.getByText('is done already').waitFor()
    await refused.getByText('Pole P3: Set up the work zone').waitFor()
    await refused.getByRole('button', { name: 'Set it aside' }).click()
    await refused.waitFor({ state: 'detached' })
    const { entries } = await ask<JobAnswer>('crew', `/api/jobs/${job.id}`)
    expect(
      entries.filter(({ entry }) => isStepDone(entry) && entry.stepId === 'work-zone'),
    ).toHaveLength(1)
  })
})

describe('a job that was changed at a desk while the crew was without signal', () => {
  it('is said so, and one answer sends the start and all that was done behind it', async () => {
    const issued = await issueChangeOut(ask, oneUnitFeeder('retitled'))
    const [first, second] = entriesThrough(issued.plan).filter(isStepDone)
    if (!first || !second) throw new Error('Expected two steps.')
    const view = encodeURIComponent(`job:${issued.id}:steps:P3`)
    const page = await phone.open(`${server.url}/?feeder=retitled&person=crew&view=${view}`)
    await page.getByRole('button', { name: 'Start the work' }).waitFor()
    await phone.cutOff(true)
    await page.getByRole('button', { name: 'Start the work' }).click()
    await passSteps(page, [first, second])
    const head = { title: 'Change the bank at P3 first', note: 'Gate is locked', crew: 'north' }
    const changed = { ...head, version: issued.version }
    await ask('planner', `/api/jobs/${issued.id}`, 'PUT', changed)
    await phone.cutOff(false)
    const conflict = page.getByRole('region', { name: 'Not taken yet' })
    await conflict.getByText('with the note “Gate is locked”').waitFor()
    await conflict.getByText('2 things entered after it wait on this device').waitFor()
    expect(await page.getByRole('region', { name: 'Refused entries' }).count()).toBe(0)
    await conflict.getByRole('button', { name: 'Send it all the same' }).click()
    await conflict.waitFor({ state: 'detached' })
    const kept = async () => {
      const { job, entries } = await ask<JobAnswer>('crew', `/api/jobs/${issued.id}`)
      return { state: job.state, title: job.title, steps: entries.length }
    }
    await expect.poll(kept).toEqual({ state: 'in the field', title: head.title, steps: 2 })
  })
})

describe('what two people say of the poles', () => {
  it('is shown side by side; each chosen field is kept, and nothing of either is lost', async () => {
    const { job, open } = await startJob('two-said', null)
    const path = `/api/jobs/${job.id}/as-left`
    const first = AsLeft.parse({
      on: '2026-11-20',
      crew: ['K. Lane'],
      units: [{ phase: 'B', serialNumber: '4711', tapLeft: 4 }],
      settings: { ...job.plan.bank?.regulator },
      measures: job.plan.poles.flatMap(({ pole, measures }) =>
        measures.map(({ kind, ...measure }) => ({ ...measure, pole, measure: kind, isDone: true })),
      ),
      remarks: 'first',
      signedBy: 'K. Lane',
    })
    await ask('crew', path, 'PUT', { version: 0, asLeft: first })
    const page = await open('as-left')
    await page.getByRole('button', { name: 'Change what is said here' }).click()
    await phone.cutOff(true)
    const form = page.getByRole('form', { name: 'As left' })
    await form.getByLabel('Tap left (steps)').fill('6')
    await form.getByLabel('Remarks').fill('mine')
    await expectFitForGloves(page)
    await form.getByRole('button', { name: 'Enter as left' }).click()
    await page.getByText('waiting on this device').first().waitFor()
    const settings = first.settings && { ...first.settings, delayS: 45 }
    const theirs = { ...first, remarks: 'theirs', settings }
    await ask('supervisor', path, 'PUT', { version: 1, asLeft: theirs })
    await phone.cutOff(false)

    const both = page.getByRole('alert', { name: 'Two versions of what is left at the poles' })
    await both.waitFor()
    await both.getByText('changed by you alone').waitFor()
    await both.getByText('changed by them alone').waitFor()
    const remarks = both.getByRole('group', { name: /^Remarks/ })
    await remarks.getByText('changed by both').waitFor()
    await remarks.getByText('mine').waitFor()
    await remarks.getByText('theirs').waitFor()
    await keepPicture(page, 'crew-side-by-side-phone')
    expect(await seriousFindings(page)).toEqual([])
    await expectFitForGloves(page)
    const save = both.getByRole('button', { name: 'Save what is chosen' })
    expect(await save.isDisabled()).toBe(true)
    await remarks.getByLabel('Yours').check()
    await save.click()
    await both.waitFor({ state: 'detached' })
    await page.getByText('with the server').waitFor()
    const { asLeft } = await ask<JobAnswer>('crew', `/api/jobs/${job.id}`)
    expect(asLeft?.version).toBe(3)
    expect(asLeft?.asLeft).toMatchObject({
      remarks: 'mine',
      settings: { delayS: 45 },
      units: [{ phase: 'B', serialNumber: '4711', tapLeft: 6 }],
    })
    expect(phone.complaints).toEqual([])
  })
})
