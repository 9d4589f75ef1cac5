import type { Page } from 'playwright-core'
import { beforeAll, describe, expect, it } from 'vitest'
import type { Job, SequenceRecord } from '#contract/jobs.ts'
import { layersOfFeeder } from '../../server/layer-files/layers-of-feeder.ts'
import { bankedFeeder } from '../support/banked-feeder.ts'
import { type AskAs, askAs } from '../support/change-out-job.ts'
import { keepPicture, mapIsIdle, PHONE, seriousFindings } from '../support/desk-page.ts'
import { deskSession } from '../support/desk-session.ts'
import { smallFeeder } from '../support/small-feeder.ts'

const FEEDER = 'supervised'
const ORDER = 'inspection-round'
const session = deskSession({}, { isWithoutLand: true })
const feeder = smallFeeder({ id: FEEDER, name: 'Supervised feeder', poles: 9 })
let ask: AskAs

beforeAll(async () => {
  ask = askAs(session.url())
  await ask('planner', '/api/feeders', 'POST', { layers: layersOfFeeder(feeder) })
})

const openDesk = (rest = '', options = {}) =>
  session.open(`&feeder=${FEEDER}&person=supervisor${rest}`, options, 'supervisor')

function draftLook(title: string, poles: readonly string[], dueOn?: string): Promise<Job> {
  return ask('supervisor', `/api/feeders/${FEEDER}/jobs`, 'POST', {
    title,
    ...(dueOn && { dueOn }),
    origin: { kind: 'by hand', jobKind: 'inspection', poles },
  })
}

async function moved(job: Job, to: Job['state'], reason?: string): Promise<Job> {
  const body = { version: job.version, to, ...(reason && { reason }) }
  return ask('supervisor', `/api/jobs/${job.id}/move`, 'POST', body)
}

async function orderNow(): Promise<SequenceRecord> {
  const orders = await ask<SequenceRecord[]>('supervisor', '/api/step-sequences')
  const found = orders.find(({ sequence }) => sequence.id === ORDER)
  if (!found) throw new Error(`Expected an order of steps "${ORDER}".`)
  return found
}

const orderForm = (page: Page) => page.getByRole('form', { name: /^Steps of / })
const setButton = (page: Page) => orderForm(page).getByRole('button', { name: 'Set this order' })

describe('the supervisor’s desk', () => {
  it('opens for whoever enters the demo as supervisor', async () => {
    const { page } = await session.visit('/')
    await page.getByRole('button', { name: 'Enter as supervisor' }).click()
    await page.getByRole('tab', { name: 'Jobs', selected: true }).waitFor()
    await page.getByRole('tab', { name: 'Orders of steps' }).waitFor()
    expect(await page.getByRole('combobox', { name: 'Desk' }).inputValue()).toBe('supervisor')
  })

  it('says what came back and what is late, first of all, and marks their poles on the map', async () => {
    const back = await moved(await draftLook('Look at the ford', ['P2']), 'approved')
    await moved(back, 'returned', 'The ford is under water.')
    await draftLook('Look at the mill', ['P5', 'P6'], '2026-01-15')
    await draftLook('Look at the end', ['P9'])
    const { page, complaints } = await openDesk()
    await page
      .getByRole('heading', { name: /^3 jobs are open: 1 returned, 1 late; 2 wait/ })
      .waitFor()
    const columns = page.locator('.board-column')
    expect(await columns.first().textContent()).toContain('The ford is under water.')
    const drafted = page.getByRole('region', { name: '2 jobs, drafted' })
    expect(await drafted.getByRole('button').first().textContent()).toMatch(/days late/)
    await mapIsIdle(page)
    const marks = await page.evaluate(() =>
      (window.crossarmMap?.queryRenderedFeatures({ layers: ['job-poles'] }) ?? []).map(
        ({ properties: { pole, state, late } }) => `${pole} ${state} ${late}`,
      ),
    )
    expect([...new Set(marks)].sort()).toEqual([
      'P2 returned false',
      'P5 drafted true',
      'P6 drafted true',
      'P9 drafted false',
    ])
    await page.getByText('Ring: late').waitFor()
    expect(await seriousFindings(page)).toEqual([])
    await keepPicture(page, 'supervisor-board')
    expect(complaints).toEqual([])
  })

  it('fits a phone, one state below the other', async () => {
    const { page, complaints } = await openDesk('', {
      viewport: PHONE,
      hasTouch: true,
      isMobile: true,
    })
    await page.getByRole('region', { name: 'Board of jobs' }).waitFor()
    const wide = await page.evaluate(() => document.documentElement.scrollWidth)
    expect(wide).toBeLessThanOrEqual(PHONE.width)
    const lefts = await page
      .locator('.board-column')
      .evaluateAll((columns) => columns.map((column) => column.getBoundingClientRect().left))
    expect(new Set(lefts).size).toBe(1)
    expect(await seriousFindings(page)).toEqual([])
    expect(complaints).toEqual([])
  })

  it('drafts a job by hand, and deletes it so that it can be brought back', async () => {
    const { page, complaints } = await openDesk('&view=draft')
    await page.getByLabel('Poles').fill('P3, P99')
    await page.getByText('This feeder has no pole P99.').waitFor()
    await page.getByLabel('Poles').fill('P3, P4')
    const form = page.getByRole('form', { name: /^Hand over inspection/ })
    await form.getByLabel('Title').fill('Look at two poles')
    await form.getByRole('button', { name: 'Draft the job' }).click()
    await page.getByRole('heading', { name: 'Look at two poles' }).waitFor()
    await page.getByRole('button', { name: 'Delete the job' }).click()
    await page.getByText('“Look at two poles” is deleted.').waitFor()
    await page.getByRole('button', { name: 'Restore it' }).click()
    await page.getByRole('button', { name: 'Approve' }).waitFor()
    // A browser notes that what is deleted is no longer found.
    expect(complaints.filter((complaint) => !complaint.includes('404'))).toEqual([])
  })
})

describe('a bank that is taken out of service', () => {
  it('is offered only while it stands in service, and its plan tells before, after and between', async () => {
    const banked = bankedFeeder('out-of-service')
    await ask('planner', '/api/feeders', 'POST', { layers: layersOfFeeder(banked) })
    const { page, complaints } = await session.open(
      '&feeder=out-of-service&person=supervisor&view=draft',
      {},
      'supervisor',
    )
    const kind = page.getByLabel('What the crew is sent out for')
    await kind.selectOption('return a bank to service')
    await page.getByText('Every bank on this feeder is in service').waitFor()
    await kind.selectOption('take a bank out of service')
    const form = page.getByRole('form', { name: /^Hand over take a bank out/ })
    await form.getByLabel('Bird work on the same visit').selectOption('leave')
    await form.getByText('Pairs that stand open stay open').waitFor()
    await form.getByRole('button', { name: 'Draft the job' }).click()
    const plan = page.getByRole('region', { name: 'Plan of the job' })
    await plan.getByRole('img', { name: /before the work: in service/ }).waitFor()
    await plan.getByRole('img', { name: /after the work: bypassed: bypass closed/ }).waitFor()
    const between = plan.getByRole('region', { name: 'While the bank is bypassed' })
    await between.getByText(/until the bank is returned to service/).waitFor()
    expect(await between.getByRole('row').count()).toBe(banked.header.cases.length + 1)
    expect(await seriousFindings(page)).toEqual([])
    await keepPicture(page, 'bank-out-of-service')
    expect(complaints).toEqual([])
  })
})

describe('an order of steps', () => {
  it('is added as a copy under a name of its own, and withdrawn again', async () => {
    const { page, complaints } = await openDesk('&view=add-order')
    const begin = page.getByRole('form', { name: 'Begin an order of steps' })
    await begin.getByLabel('Name').fill('Our own settings')
    await begin.getByLabel('Begin with the steps of').selectOption('change-settings')
    await begin.getByRole('button', { name: 'Begin' }).click()
    await orderForm(page)
      .getByText(/^Set so, no job takes it/)
      .waitFor()
    // An id that comes first is told by its name.
    await orderForm(page).getByRole('textbox', { name: 'Name' }).fill('A settings order')
    await page.reload()
    await orderForm(page)
      .getByText(/take it for: change the settings of a bank/)
      .waitFor()
    await setButton(page).click()
    await page.getByRole('heading', { name: 'A settings order' }).waitFor()
    await page.getByRole('button', { name: 'Withdraw this order…' }).click()
    await page.getByText(/“change the settings of a bank” takes “/).waitFor()
    expect(await seriousFindings(page)).toEqual([])
    await page.getByRole('button', { name: 'Withdraw it' }).click()
    await page.getByRole('button', { name: 'Add an order of steps' }).waitFor()
    expect(await page.getByText('A settings order').count()).toBe(0)
    expect(complaints).toEqual([])
  })

  it('cannot be set while it is unsafe, and once it is set the next job takes it', async () => {
    const { page, complaints } = await openDesk('&view=orders')
    const { sequence } = await orderNow()
    const hold = sequence.steps.findIndex(({ isHoldPoint }) => isHoldPoint)
    await page.getByRole('button', { name: new RegExp(`^${sequence.name}`) }).click()
    await page.getByRole('button', { name: 'Change the steps' }).click()
    const steps = orderForm(page).getByRole('list', { name: 'Steps in their order' })
    await steps.getByRole('button', { name: new RegExp(`^Step ${hold + 1}, hold point`) }).click()
    // A hold point that holds nothing.
    const asks = sequence.steps[hold]?.asks.length ?? 0
    for (let left = asks; left > 0; left--) {
      await steps.getByRole('button', { name: 'Do not ask for reading 1' }).click()
    }
    await steps.getByText(/asks for no reading that is needed/).waitFor()
    expect(await setButton(page).isDisabled()).toBe(true)
    expect(await seriousFindings(page)).toEqual([])
    await keepPicture(page, 'order-of-steps')
    await steps.getByRole('button', { name: 'Ask for a reading' }).click()
    await steps.getByLabel('What is read or said').fill('Everybody heard it')
    await steps.getByLabel('What is done').fill('Say who does what, aloud.')
    // By keyboard: the step goes one place down and up again.
    const row = steps.getByRole('button', { name: /: Say who does what, aloud\.$/ })
    await row.press('Alt+ArrowDown')
    await steps
      .getByRole('button', { name: new RegExp(`^Step ${hold + 2}, hold point: Say`) })
      .waitFor()
    await row.press('Alt+ArrowUp')
    // What was typed stays.
    await page.reload()
    await setButton(page).click()
    await page.getByText(/^Version 1, set by Demo supervisor/).waitFor()
    const job = await draftLook('Look by the new order', ['P7'])
    const taken = job.plan.poles[0]
    expect(taken?.sequenceVersion).toBe(1)
    expect(taken?.sequence.steps[hold]?.text).toBe('Say who does what, aloud.')
    expect(complaints).toEqual([])
  })

  it('that someone else set meanwhile stands beside what was typed, step by step', async () => {
    const { page, complaints } = await openDesk(`&view=orders~${ORDER}`)
    await page.getByRole('button', { name: 'Change the steps' }).click()
    await orderForm(page).getByLabel('Name').fill('Inspection, ours')
    const { sequence, version } = await orderNow()
    const [first, ...others] = sequence.steps
    if (!first) throw new Error('Expected a step.')
    await ask('supervisor', `/api/step-sequences/${ORDER}`, 'PUT', {
      version,
      sequence: {
        ...sequence,
        name: 'Theirs',
        steps: [{ ...first, text: 'Their words.' }, ...others],
      },
    })
    await orderForm(page).getByRole('button', { name: 'Look at both' }).click()
    const both = orderForm(page).getByRole('alert', { name: 'Two versions of this order of steps' })
    await both.getByText('Their words.').first().waitFor()
    await both.getByText('Still to choose: Name.').waitFor()
    await both
      .getByRole('radio', { name: /^Yours/ })
      .first()
      .check()
    await both.getByRole('button', { name: 'Save what is chosen' }).click()
    await page.getByRole('heading', { name: 'Inspection, ours' }).waitFor()
    const now = await orderNow()
    expect(now.sequence.name).toBe('Inspection, ours')
    expect(now.sequence.steps[0]?.text).toBe('Their words.')
    expect(complaints).toEqual([])
  })

  it('goes back to what came with the program', async () => {
    const { page, complaints } = await openDesk(`&view=orders~${ORDER}`)
    await page.getByRole('button', { name: 'Change the steps' }).click()
    await orderForm(page)
      .getByRole('button', { name: /^Put back the steps/ })
      .click()
    await orderForm(page).getByText('These are the steps as they come with the program.').waitFor()
    const { version } = await orderNow()
    await setButton(page).click()
    await page.getByText(new RegExp(`^Version ${version + 1}, set by Demo supervisor`)).waitFor()
    expect((await orderNow()).sequence.name).not.toBe('Inspection, ours')
    expect(complaints).toEqual([])
  })

  it('is there to be read for the planner, who may not set it', async () => {
    const { page, complaints } = await session.open(
      `&feeder=${FEEDER}&person=supervisor&view=orders~${ORDER}`,
      {},
      'planner',
    )
    await page.getByText('Hold point.').first().waitFor()
    expect(await page.getByRole('button', { name: 'Change the steps' }).count()).toBe(0)
    expect(complaints).toEqual([])
  })
})
