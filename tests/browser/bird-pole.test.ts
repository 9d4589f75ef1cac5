import type { Page } from 'playwright-core'
import { beforeAll, describe, expect, it } from 'vitest'
import type { ProtectionRecord } from '#contract/protections.ts'
import { assessPole } from '#domain/avian/assessment/assess-pole.ts'
import type { PoleAssessment } from '#domain/avian/assessment/pole-assessment.ts'
import { cheapestMeasures } from '#domain/avian/measures/cheapest-measures.ts'
import type { MeasureSet } from '#domain/avian/measures/measure.ts'
import { poleSites } from '#domain/avian/pole-top/pole-sites.ts'
import { readDemoFeeder } from '../support/demo-feeder.ts'
import { keepPicture, PHONE, seriousFindings } from '../support/desk-page.ts'
import { deskSession } from '../support/desk-session.ts'

const FEEDER = 'skillet'
const session = deskSession({}, { isWithoutLand: true })

interface OpenPole {
  readonly id: string
  readonly assessment: PoleAssessment
  readonly cheapest: MeasureSet
}

let pole: OpenPole

/** An open pole with a transformer that can be closed whole, so that the way through is long enough. */
async function findOpenPole(): Promise<OpenPole> {
  const feeder = await readDemoFeeder(FEEDER)
  for (const site of poleSites(feeder, [])) {
    const items = feeder.protections.filter((item) => item.pole === site.pole.id)
    if (items.length > 0 || !site.equipment.some(({ kind }) => kind === 'transformer')) continue
    const assessment = assessPole(site, items)
    const [cheapest] = cheapestMeasures(site, items)
    const closes = cheapest !== undefined && cheapest.leftOpen.length === 0
    if (assessment.state === 'open' && closes) return { id: site.pole.id, assessment, cheapest }
  }
  throw new Error('The demo has no open pole with a transformer that can be closed.')
}

beforeAll(async () => {
  pole = await findOpenPole()
})

const openPole = (rest = '', options = {}) =>
  session.open(`&feeder=${FEEDER}&person=coordinator&pole=${pole.id}${rest}`, options)

const panelOf = (page: Page) => page.getByRole('article', { name: `Pole ${pole.id}` })
const pairsOf = (page: Page) => panelOf(page).getByRole('region', { name: 'Pairs on the drawing' })

async function itemsOnServer(): Promise<ProtectionRecord[]> {
  const answer = await session.ask(`/api/feeders/${FEEDER}/protections`)
  const items = (await answer.json()) as ProtectionRecord[]
  return items.filter((item) => item.pole === pole.id)
}

/** "12 pairs the eagle can bridge": the number that the screen gives. */
async function pairsShown(page: Page): Promise<number> {
  const text = await pairsOf(page)
    .getByRole('heading', { name: /pairs? the eagle can bridge/ })
    .textContent()
  return Number.parseInt(text ?? '', 10)
}

describe('one pole, as the coordinator works through it', () => {
  it('shows its pairs on the drawing, what a bird bridges from a perch, and the cheapest way as a trial', async () => {
    const { page, complaints } = await openPole()
    const panel = panelOf(page)
    await panel.getByText('open', { exact: true }).first().waitFor()
    expect(await pairsShown(page)).toBe(pole.assessment.pairs.length)
    await panel.getByRole('img', { name: /^Front, seen along the line/ }).waitFor()
    await panel.getByRole('img', { name: /^Side, seen across the line/ }).waitFor()
    await panel.getByText('from memory').first().waitFor()

    const bird = panel.getByRole('region', { name: 'Bird on a perch' })
    const handle = panel.getByRole('button', { name: /^Move the eagle/ }).first()
    await panel.getByText(/^All \d+ parts/).click()
    await panel.getByRole('button', { name: 'Put the bird on the pole' }).click()
    await bird.getByText(/^On the pole:/).waitFor()
    await handle.focus()
    for (let step = 0; step < 3; step++) await page.keyboard.press('ArrowUp')
    await bird.getByText(/^Held in the air/).waitFor()
    for (let step = 0; step < 3; step++) await page.keyboard.press('ArrowDown')
    await bird.getByText(/^On the pole:/).waitFor()
    const told = new Set<string>()
    for (let perch = 0; perch < 12; perch++) {
      await bird.getByRole('button', { name: 'Next perch' }).click()
      told.add((await bird.getByRole('status').textContent()) ?? '')
    }
    expect([...told].some((text) => /bridges \d+ pairs? from here/.test(text))).toBe(true)
    await bird.getByLabel('Bird').selectOption({ label: 'American kestrel' })
    await panel
      .getByRole('button', { name: /^Move the American kestrel/ })
      .first()
      .waitFor()

    const way = panel.getByRole('region', { name: 'Cheapest way to close' })
    await way
      .getByText(/no insulation for people/)
      .last()
      .waitFor()
    await way.getByRole('button', { name: 'Try on the drawing' }).first().click()
    await way.getByText(`0 pairs left of ${pole.assessment.pairs.length}`).waitFor()
    await panel.getByText('No pair is left that the eagle could bridge.').waitFor()
    expect(await itemsOnServer()).toEqual([])
    await keepPicture(page, 'bird-pole-trial-desktop')
    expect(await seriousFindings(page)).toEqual([])
    expect(complaints).toEqual([])
  })

  it('is covered once the measures are recorded as on, and failed once one of them slipped', async () => {
    const { page } = await openPole()
    const panel = panelOf(page)
    const way = panel.getByRole('region', { name: 'Cheapest way to close' })
    await way.getByRole('button', { name: 'Try on the drawing' }).first().click()
    await way.getByRole('button', { name: 'Record as on' }).click()
    await panel.getByText(/^What is installed and sound closes all/).waitFor()
    const items = await itemsOnServer()
    expect(items.map(({ measure }) => measure).sort()).toEqual(
      pole.cheapest.uses.map(({ kind }) => kind).sort(),
    )
    expect(items.every(({ state }) => state === 'on')).toBe(true)

    await panel
      .getByRole('button', { name: /^Inspect / })
      .first()
      .click()
    const form = panel.getByRole('form', { name: /^Inspect / })
    await form.getByLabel('Condition').selectOption('slipped')
    await form.getByText('It will count as failed from that day').waitFor()
    await form.getByLabel('Note').fill('found below the bushing')
    await form.getByRole('button', { name: 'Save the inspection' }).click()
    await panel.getByText('Something installed has failed').waitFor()
    expect(await pairsShown(page)).toBeGreaterThan(0)
    const failed = (await itemsOnServer()).filter(({ state }) => state === 'failed')
    expect(failed).toHaveLength(1)
    expect(failed[0]).toMatchObject({ condition: 'slipped', note: 'found below the bushing' })
  })

  it('takes a measured dimension, draws by it, and keeps what was typed over a reload', async () => {
    const { page } = await openPole('', { viewport: PHONE, hasTouch: true, isMobile: true })
    const panel = panelOf(page)
    await panel.getByRole('button', { name: 'Measure this pole' }).click()
    const form = panel.getByRole('form', { name: `Measure pole ${pole.id}` })
    const bushing = form.getByLabel(/^Top of a bushing above its lid/)
    await bushing.fill('eleven')
    await form.getByRole('button', { name: 'Save what was measured' }).click()
    expect(await bushing.getAttribute('aria-invalid')).toBe('true')
    await bushing.fill('11')
    await page.reload()
    expect(await bushing.inputValue()).toBe('11')
    await form.getByRole('button', { name: 'Save what was measured' }).click()
    await panel.getByText('were chosen by hand').waitFor()
    const answer = await session.ask(`/api/feeders/${FEEDER}/pole-tops`)
    const [chosen] = (await answer.json()) as { pole: string; measured: { bushingM: number } }[]
    expect(chosen?.pole).toBe(pole.id)
    expect(chosen?.measured.bushingM).toBeCloseTo(11 * 0.0254, 6)
    await keepPicture(page, 'bird-pole-phone')
    const sticksOut = await page.evaluate(() =>
      [...document.querySelectorAll('article *')]
        .filter((element) => element.getBoundingClientRect().right > window.innerWidth + 1)
        .map((element) => element.outerHTML.slice(0, 120)),
    )
    expect(sticksOut).toEqual([])
    expect(await seriousFindings(page)).toEqual([])
  })
})

describe('the same pole on other desks', () => {
  it('tells the crew what stands open on it', async () => {
    const { page } = await session.open(`&feeder=${FEEDER}&person=crew&pole=${pole.id}`)
    const birds = page.getByRole('region', { name: 'Birds on it' })
    await birds
      .getByText(/pairs? the eagle can bridge/)
      .first()
      .waitFor()
    await birds.getByText('Drawing of the pole top').click()
    await birds.getByRole('img', { name: /^Front, seen along the line/ }).waitFor()
    expect(await seriousFindings(page)).toEqual([])
  })
})
