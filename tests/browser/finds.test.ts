import { readFile } from 'node:fs/promises'
import type { Page } from 'playwright-core'
import { describe, expect, it } from 'vitest'
import type { IncidentRecord } from '#contract/incidents.ts'
import type { NestRecord } from '#contract/nests.ts'
import { readDemoFeeder } from '../support/demo-feeder.ts'
import { keepPicture, PHONE, seriousFindings } from '../support/desk-page.ts'
import { deskSession } from '../support/desk-session.ts'

const FEEDER = 'skillet'
/** Of the demo: a golden eagle. */
const FOUND_AT = 'S-205'
/** A map without a graphics card draws a small one sooner. */
const SMALL = { viewport: { width: 1000, height: 800 } }
const session = deskSession({}, { isWithoutLand: true })

const openFinds = (rest = '', options = {}) =>
  session.open(`&feeder=${FEEDER}&person=coordinator&view=finds${rest}`, options)
const walk = (view: string) =>
  session.walk(`&feeder=${FEEDER}&person=coordinator&view=${view}`, SMALL)

async function findAt(pole: string): Promise<IncidentRecord> {
  const answer = await session.ask(`/api/feeders/${FEEDER}/incidents`, { role: 'coordinator' })
  const finds = (await answer.json()) as IncidentRecord[]
  const found = finds.find((find) => find.pole === pole)
  if (!found) throw new Error(`The record holds no find at pole ${pole}.`)
  return found
}

/** Goes on by Tab until the control with this label has the focus, and types. */
async function typeByKeyboard(page: Page, label: string, text: string): Promise<void> {
  const control = page.getByRole('form').getByLabel(label, { exact: true })
  await control.waitFor()
  for (let step = 0; step < 60; step += 1) {
    if (await control.evaluate((element) => element === document.activeElement)) {
      await page.keyboard.type(text)
      return
    }
    await page.keyboard.press('Tab')
  }
  throw new Error(`The keyboard does not reach ${label}.`)
}

describe('the desk of finds', () => {
  it('records a find on a pole by keyboard and offers what follows', async () => {
    const feeder = await readDemoFeeder(FEEDER)
    const pole = feeder.poles[100]
    if (!pole) throw new Error('The demo has too few poles.')
    const { page, complaints } = await openFinds('', SMALL)
    const form = page.getByRole('form', { name: 'Record a find' })
    await page.getByRole('button', { name: 'Record a find' }).press('Enter')
    await typeByKeyboard(page, 'Pole', pole.id)
    await page.reload()
    expect(await form.getByLabel('Pole', { exact: true }).inputValue()).toBe(pole.id)
    await form.getByRole('button', { name: 'Save' }).press('Enter')
    await form.getByText('Say which species').waitFor()
    await typeByKeyboard(page, 'Species', 'golden eagle')
    await typeByKeyboard(page, 'Cause', 'confirmed')
    await form.getByText('The pole then', { exact: false }).first().click()
    const parts = form.getByRole('button', { name: /, in the front view$/ })
    const pressed = [parts.nth(-1), parts.nth(-2)]
    for (const part of pressed) await part.click()
    for (const part of pressed) expect(await part.getAttribute('aria-pressed')).toBe('true')
    await form.getByRole('button', { name: 'Save' }).press('Enter')

    const find = page.getByRole('article', { name: /^Find: golden eagle/ }).filter({
      has: page.getByRole('region', { name: 'What follows' }),
    })
    const follows = find.getByRole('region', { name: 'What follows' })
    await follows.getByText(/visit: due/i).waitFor()
    await follows.getByText('How sure: assumption', { exact: false }).waitFor()
    await find.getByRole('region', { name: 'Similar poles nearby' }).waitFor()
    await keepPicture(page, 'finds-desk-desktop')
    expect(await seriousFindings(page)).toEqual([])
    const recorded = await findAt(pole.id)
    expect(recorded).toMatchObject({ at: pole.at, species: 'golden eagle' })
    expect(recorded).toMatchObject({
      suspectedPartA: expect.stringMatching(/./),
      suspectedPartB: expect.stringMatching(/./),
    })
    await follows.getByRole('button', { name: 'visit: done today' }).click()
    await follows.getByText(/visit: done .*, due/i).waitFor()
    expect(complaints).toEqual([])
  })

  it('lets two people who changed one find choose what stands', async () => {
    const { id: findId } = await findAt(FOUND_AT)
    const { page, complaints } = await walk(`finds~edit-find~${findId}`)
    const edit = page.getByRole('form', { name: /^Edit the find/ })
    await edit.getByLabel('Note').fill('mine')
    await edit.getByText('What was done, and what is due').click()
    await edit.getByRole('button', { name: 'Take these dates' }).click()
    const { id, changedBy, changedAt, deletedAt, ...body } = await findAt(FOUND_AT)
    const others = { role: 'crew', method: 'PUT', body: { ...body, note: 'theirs' } } as const
    const answer = await session.ask(`/api/feeders/${FEEDER}/incidents/${id}`, others)
    expect(answer.status).toBe(200)
    await edit.getByRole('button', { name: 'Save', exact: true }).click()
    const both = edit.getByRole('alert', { name: 'Two versions of this find' })
    const note = both.getByRole('group', { name: /^Note/ })
    await note.getByRole('radio', { name: /^Yours/ }).check()
    await both.getByRole('button', { name: 'Save what is chosen' }).click()
    await edit.waitFor({ state: 'detached' })
    const changed = await findAt(FOUND_AT)
    expect(changed.note).toBe('mine')
    expect(changed.fixDueOn).toMatch(/^\d{4}-\d\d-\d\d$/)
    // A refused save is told by the browser as an error of the network.
    expect(complaints.filter((text) => !text.includes('409'))).toEqual([])
  })

  it('records a nest with the buffer of a rule set, and what was seen today, on a phone', async () => {
    const { page, complaints } = await openFinds('~new-nest', { viewport: PHONE })
    const form = page.getByRole('form', { name: 'Record a nest' })
    await form.getByRole('button', { name: 'Middle of the map' }).click()
    await form.getByLabel('Species').fill('Ferruginous hawk')
    await form.getByText('Buffer and season of its own').click()
    await form
      .getByRole('button', { name: /^Take the figures of/ })
      .first()
      .click()
    await keepPicture(page, 'finds-nest-phone')
    expect(await seriousFindings(page)).toEqual([])
    await form.getByRole('button', { name: 'Save' }).click()
    const nest = page.getByRole('article', { name: /^Nest: Ferruginous hawk/ }).filter({
      has: page.getByRole('region', { name: 'Seasons' }),
    })
    await nest.getByRole('button', { name: 'Seen in use today' }).click()
    await nest.getByText(/^\d{4}: in use, seen/).waitFor()
    await nest.getByRole('button', { name: /^Delete the nest/ }).click()
    await page.getByRole('button', { name: 'Undo the deletion' }).click()
    await nest.waitFor()
    const answer = await session.ask(`/api/feeders/${FEEDER}/nests`, { role: 'coordinator' })
    const nests = (await answer.json()) as NestRecord[]
    expect(nests.find(({ species }) => species === 'Ferruginous hawk')).toMatchObject({
      status: 'in use',
      seasons: [{ status: 'in use' }],
    })
    expect(complaints).toEqual([])
  })
})

describe('the yearly account', () => {
  it('shows figures with limits and working, and is saved as a table', async () => {
    const { page, complaints } = await session.open(
      `&feeder=${FEEDER}&person=coordinator&view=account~2025`,
      SMALL,
    )
    const rate = page.getByRole('region', { name: 'Rate' })
    await rate.getByText('95 %:', { exact: false }).waitFor()
    await page.getByText('Finds that came by chance have no denominator').waitFor()
    await page.getByLabel('A search finds, of what is there').fill('50')
    await rate.getByText('50 % of them are found').waitFor()
    await rate.getByRole('button', { name: /^Electrocutions per 1000 pole-years/ }).click()
    await page.getByRole('dialog').getByText('Garwood', { exact: false }).waitFor()
    await page.keyboard.press('Escape')
    await keepPicture(page, 'account-desk-desktop')
    expect(await seriousFindings(page)).toEqual([])
    const [file] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save as a table (CSV)' }).click(),
    ])
    const table = await readFile(await file.path(), 'utf8')
    expect(table).toContain('section,what,value,unit,low_95,high_95,note')
    const [layer] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Poles as a map layer (GeoJSON)' }).click(),
    ])
    const { features } = JSON.parse(await readFile(await layer.path(), 'utf8'))
    expect(features).toHaveLength((await readDemoFeeder(FEEDER)).poles.length)
    expect(complaints).toEqual([])
  })

  it('opens as a page to print, with a picture of the feeder', async () => {
    const { page, complaints } = await walk('account~2025')
    await page.getByRole('button', { name: 'Report to print' }).click()
    const report = page.getByRole('main', { name: 'Bird report 2025' })
    await report.getByRole('img', { name: /^The feeder with \d+ poles by state/ }).waitFor()
    await report.getByText('How the figures come about').waitFor()
    await keepPicture(page, 'account-report-desktop')
    expect(await seriousFindings(page)).toEqual([])
    await page.emulateMedia({ media: 'print' })
    expect(await page.locator('#root').isVisible()).toBe(false)
    expect(await report.getByRole('button', { name: 'Print' }).isVisible()).toBe(false)
    // Widths of A4 and Letter at 96 px an inch: nothing is wider than the paper.
    for (const width of [794, 816]) {
      await page.setViewportSize({ width, height: 1100 })
      const over = await report.evaluate((element) => element.scrollWidth - element.clientWidth)
      expect(over).toBeLessThanOrEqual(0)
    }
    await page.emulateMedia({ media: 'screen' })
    await report.getByRole('button', { name: 'Back to the desk' }).click()
    await page.getByRole('region', { name: 'Rate' }).waitFor()
    expect(complaints).toEqual([])
  })
})
