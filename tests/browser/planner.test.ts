import type { Page } from 'playwright-core'
import { describe, expect, it } from 'vitest'
import type { FeederAnswer } from '#contract/feeders.ts'
import type { Study } from '#contract/studies.ts'
import type { VoltageBody } from '#contract/voltage.ts'
import type { CaseSolution } from '#domain/electrical/solution.ts'
import type { Position } from '#domain/feeder/geometry.ts'
import { judgePlaces, preparePlaces } from '#domain/siting/judge-places.ts'
import { SiteRequest } from '#domain/siting/site-request.ts'
import type { ProposedBank, SiteResult } from '#domain/siting/site-result.ts'
import { layersOfFeeder } from '../../server/layer-files/layers-of-feeder.ts'
import { regulatorOfBank } from '../../web/planner/trial-banks.ts'
import {
  type DeskPage,
  keepPicture,
  mapIsIdle,
  PHONE,
  seriousFindings,
} from '../support/desk-page.ts'
import { deskSession } from '../support/desk-session.ts'
import { smallFeeder } from '../support/small-feeder.ts'

const FEEDER = 'skillet'
/** Searching 300 poles beside a browser that draws without a graphics card takes its time. */
const STUDY_WITHIN_MS = 110_000
/** A study, then map and desk looked at a dozen times, and a reload. */
const STUDY_AND_WALK_MS = STUDY_WITHIN_MS + 130_000

const session = deskSession()

const openPlanner = (rest = '', options = {}): Promise<DeskPage> => session.open(rest, options)
const walkPlanner = (rest: string): Promise<DeskPage> => session.walk(rest)

type Converged = Extract<CaseSolution, { status: 'converged' }>

/** Peak case as the server solves it, with banks on trial. */
async function solvedByServer(extraBanks: VoltageBody['extraBanks'] = []): Promise<Converged> {
  const answer = await session.ask(`/api/feeders/${FEEDER}/voltage`, {
    method: 'POST',
    body: { caseId: 'peak', taps: 'controlled', extraBanks },
  })
  const { solutions } = (await answer.json()) as { solutions: CaseSolution[] }
  const [found] = solutions
  if (found?.status !== 'converged') throw new Error('The peak case did not converge.')
  return found
}

/** The bank with the size and the settings that its place asks for. */
async function judgedAt({ feeder: id }: SiteResult, bank: ProposedBank): Promise<ProposedBank> {
  const answer = await session.ask(`/api/feeders/${id}`)
  const { feeder } = (await answer.json()) as FeederAnswer
  const { lowVolts120, highVolts120 } = feeder.header.limits
  const judge = preparePlaces(feeder, SiteRequest.parse({ lowVolts120, highVolts120 }))
  const found = typeof judge === 'string' ? null : judgePlaces(judge, [bank])
  const there = found?.status === 'judged' ? found.proposal.banks[0] : undefined
  if (!there) throw new Error(`The bank at pole ${bank.pole} was not judged.`)
  return there
}

interface Lowest {
  readonly volts120: number
  readonly pole: string
  readonly phase: string
}

function lowestOf({ nodes }: Converged): Lowest {
  const all = nodes
    .filter(({ id, poleId }) => id === poleId)
    .flatMap(({ id, phases }) =>
      Object.entries(phases).map(([phase, { volts120 }]) => ({ volts120, pole: id, phase })),
    )
  return all.reduce((a, b) => (b.volts120 < a.volts120 ? b : a))
}

async function studyOf(page: Page): Promise<Study> {
  const id = new URL(page.url()).searchParams.get('study')
  const answer = await session.ask(`/api/studies/${id}`)
  return (await answer.json()) as Study
}

const selectedPole = (page: Page) => new URL(page.url()).searchParams.get('pole')

/** Features drawn in a layer now. */
function drawn(page: Page, layer: string): Promise<Record<string, unknown>[]> {
  return page.evaluate(
    (id) =>
      (window.crossarmMap?.queryRenderedFeatures({ layers: [id] }) ?? []).map(
        ({ properties, state }) => ({ ...properties, ...state }),
      ),
    layer,
  )
}

async function placeOf(pole: string): Promise<Position> {
  const answer = await session.ask(`/api/feeders/${FEEDER}`)
  const { feeder } = (await answer.json()) as FeederAnswer
  const found = feeder.poles.find(({ id }) => id === pole)
  if (!found) throw new Error(`The feeder has no pole ${pole}.`)
  return found.at
}

async function drag(page: Page, pole: string): Promise<void> {
  const marker = page.getByRole('button', { name: /^New bank at pole/ })
  const box = await marker.boundingBox()
  if (!box) throw new Error('The new bank is not in view.')
  const target = await page.evaluate(
    ([lng, lat]) => {
      const map = window.crossarmMap
      if (!map) throw new Error('The map is not exposed.')
      const { x, y } = map.project({ lng, lat })
      const { left, top } = map.getContainer().getBoundingClientRect()
      return { x: x + left, y: y + top }
    },
    await placeOf(pole),
  )
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2)
  await page.mouse.down()
  await page.mouse.move(target.x + 20, target.y + 20, { steps: 4 })
  await page.mouse.move(target.x, target.y, { steps: 3 })
  await page.mouse.up()
}

describe('the planner’s desk', () => {
  it('opens the demo with who is low and how low, on desk, map and profile alike', async () => {
    const { page, complaints } = await openPlanner()
    const lowest = lowestOf(await solvedByServer())
    const volts = `${lowest.volts120.toFixed(1)} V`
    await page
      .getByRole('heading', {
        name: `lowest ${volts} at pole ${lowest.pole}, ${lowest.phase} phase`,
      })
      .waitFor()
    await mapIsIdle(page)
    const [label] = await drawn(page, 'worst-voltage')
    expect(label?.text).toBe(`${volts}, ${lowest.phase}`)
    const spans = await drawn(page, 'feeder-spans')
    expect(spans.length).toBeGreaterThan(200)
    expect(spans.filter(({ side }) => side === 'low').length).toBeGreaterThan(20)
    expect((await drawn(page, 'land-roads')).length).toBeGreaterThan(0)
    expect((await drawn(page, 'land-contours')).length).toBeGreaterThan(0)
    await page.getByRole('img', { name: /^Voltage along the line/ }).waitFor()
    await keepPicture(page, 'planner-desk-desktop')
    expect(await seriousFindings(page)).toEqual([])
    expect(complaints).toEqual([])
  })

  it('shows another load case at once, and nobody low at light load', async () => {
    const { page } = await walkPlanner(`&feeder=${FEEDER}`)
    await page.getByRole('heading', { name: /customers below 118 V/ }).waitFor()
    await mapIsIdle(page)
    await page.getByLabel('Load case').selectOption('light')
    await page.getByRole('heading', { name: /Every customer is inside 118 to 126 V/ }).waitFor()
    await page.waitForFunction(() => {
      const spans = window.crossarmMap?.queryRenderedFeatures({ layers: ['feeder-spans'] }) ?? []
      return spans.length > 0 && spans.every(({ state }) => state.side !== 'low')
    })
    expect(new URL(page.url()).searchParams.get('case')).toBe('light')
  })

  it('finds a pole by a scrap of its number and tells what it is', async () => {
    const { page, complaints } = await walkPlanner(`&feeder=${FEEDER}`)
    await page.getByLabel('Find a pole').fill('s245')
    await page.getByLabel('Find a pole').press('Enter')
    const panel = page.getByRole('region', { name: 'Pole S-245' })
    await panel.getByText('along the line from the source').waitFor()
    expect(selectedPole(page)).toBe('S-245')
    const solved = await solvedByServer()
    const volts = solved.nodes.find(({ id }) => id === 'S-245')?.phases.B?.volts120.toFixed(1)
    await panel.getByRole('button', { name: new RegExp(`^Phase B: ${volts}`) }).click()
    const sheet = page.getByRole('dialog')
    await sheet.getByText('V120 = 120 × |V| ÷ Vnominal').waitFor()
    await page.keyboard.press('Escape')
    await sheet.waitFor({ state: 'detached' })
    await mapIsIdle(page)
    expect((await drawn(page, 'selected-pole')).map(({ id }) => id)).toEqual(['S-245'])
    expect((await drawn(page, 'feeder-poles')).length).toBeGreaterThan(3)
    await keepPicture(page, 'planner-pole-desktop')
    expect(await seriousFindings(page)).toEqual([])
    expect(complaints).toEqual([])
  })

  it('walks along the line with the arrow keys of the map', async () => {
    const { page } = await walkPlanner(`&feeder=${FEEDER}&pole=S-245`)
    await mapIsIdle(page)
    await page.locator('.maplibregl-canvas').focus()
    await page.keyboard.press('ArrowLeft')
    await page.getByRole('region', { name: 'Pole S-244' }).waitFor()
    await page.keyboard.press('ArrowRight')
    await page.getByRole('region', { name: 'Pole S-245' }).waitFor()
    await page.keyboard.press('Escape')
    expect(selectedPole(page)).toBeNull()
  })

  it('says on the map that the positions of a published feeder are a scheme', async () => {
    const { page } = await openPlanner('&feeder=ieee34')
    await page.getByText('Positions are a scheme').waitFor()
    await page.getByRole('heading', { name: /IEEE 34 Node Test Feeder/ }).waitFor()
    await mapIsIdle(page)
    expect((await drawn(page, 'feeder-spans')).length).toBeGreaterThan(20)
    await keepPicture(page, 'planner-published-desktop')
  })
})

describe('suggesting a pole', { timeout: STUDY_AND_WALK_MS }, () => {
  it('ranks poles, lets one be dragged, kept, reopened, deleted and undone', async () => {
    const { page, complaints } = await openPlanner(`&feeder=${FEEDER}`)
    await page.getByRole('button', { name: 'Suggest a pole' }).click()
    const list = page.getByRole('list', { name: /proposals, best first/ })
    await list.waitFor({ timeout: STUDY_WITHIN_MS })
    const { result } = await studyOf(page)
    const best = result?.proposals[0]
    const bank = best?.banks[0]
    if (!result || !best || !bank) throw new Error('The study proposed nothing.')
    const rows = list.getByRole('button')
    expect(await rows.count()).toBe(result.proposals.length)
    await page.getByText(result.proof).waitFor()
    await rows.nth(1).hover()
    await mapIsIdle(page)
    expect((await drawn(page, 'proposal-marks')).length).toBeGreaterThan(0)
    expect((await drawn(page, 'candidates')).length).toBeGreaterThan(50)
    await keepPicture(page, 'planner-proposals-desktop')
    expect(await seriousFindings(page)).toEqual([])

    await rows.first().click()
    await page.getByRole('heading', { name: 'Why this pole' }).waitFor()
    await page.getByText(best.reason).waitFor()
    const lowestCell = page.getByRole('row', { name: /^Lowest/ }).first()
    const after = best.after.cases.peak?.lowest.volts120.toFixed(1)
    await lowestCell.getByText(`${after} V`).waitFor()
    await page.getByRole('button', { name: 'Before', exact: true }).click()
    await mapIsIdle(page)
    const [before] = await drawn(page, 'worst-voltage')
    expect(before?.text).toContain(result.before.cases.peak?.lowest.volts120.toFixed(1))
    await page.getByRole('button', { name: 'After', exact: true }).click()
    await mapIsIdle(page)
    await keepPicture(page, 'planner-proposal-desktop')
    expect(await seriousFindings(page)).toEqual([])

    const other = result.proposals.at(-1)?.banks[0]
    if (!other) throw new Error('The study proposed only one pole.')
    await drag(page, other.pole)
    await page.getByText('Moved by hand').waitFor()
    const movedTo = new URL(page.url()).searchParams.get('moved') ?? ''
    expect(movedTo).not.toBe('')
    expect(movedTo).not.toBe(bank.pole)
    const span = (await solvedByServer()).spans.find(({ from }) => from === movedTo)?.id ?? ''
    const there = await judgedAt(result, { ...bank, pole: movedTo, span })
    const solved = await solvedByServer([regulatorOfBank(there, 0)])
    await lowestCell.getByText(`${lowestOf(solved).volts120.toFixed(1)} V`).waitFor()
    await page.getByRole('button', { name: /^New bank at pole/ }).press('ArrowLeft')
    await page.waitForFunction(
      (pole) => new URL(window.location.href).searchParams.get('moved') !== pole,
      movedTo,
    )

    const kept = new URL(page.url()).searchParams.get('moved') ?? ''
    await page.getByRole('button', { name: 'Keep as proposal' }).click()
    await page.getByLabel('Name', { exact: true }).fill('Test bank near the pit')
    await page.getByLabel('Note').fill('Ask about the lease first.')
    await page.getByRole('button', { name: 'Keep', exact: true }).click()
    await page.getByRole('heading', { name: 'Test bank near the pit' }).waitFor()
    await page.reload()
    await page.getByRole('heading', { name: 'Test bank near the pit' }).waitFor()
    await page.getByText('Ask about the lease first.').waitFor()
    await page.getByRole('button', { name: `pole ${kept}`, exact: true }).waitFor()

    await page.getByRole('button', { name: /^Back to the/ }).click()
    const back = page.getByRole('button', { name: 'Back to the feeder' })
    if (await back.isVisible()) await back.click()
    await page.getByRole('button', { name: 'Delete Test bank near the pit' }).click()
    await page.getByText('Deleted: Test bank near the pit').waitFor()
    await page.getByRole('button', { name: 'Undo' }).click()
    await page.getByRole('button', { name: 'Test bank near the pit', exact: true }).waitFor()
    expect(complaints).toEqual([])
  })

  // Two banks take long enough to be watched; one bank may be done before the page looks.
  it('counts what it tries, stops when it is cancelled and says so', async () => {
    const { page } = await walkPlanner(`&feeder=${FEEDER}`)
    await page.getByRole('button', { name: 'Choices' }).click()
    await page.getByLabel('Banks').selectOption('2')
    await page.getByRole('button', { name: 'Suggest a pole' }).click()
    await page.getByText(/: \d+ of \d+$/).waitFor()
    await page.getByRole('button', { name: 'Cancel the study' }).press('Enter')
    await page.getByText('The study was cancelled').waitFor()
    expect((await studyOf(page)).state).toBe('cancelled')
  })

  it('names the field that is wrong instead of starting', async () => {
    const { page } = await openPlanner(`&feeder=${FEEDER}`)
    await page.getByRole('button', { name: 'Choices' }).click()
    await page.getByLabel('Low limit, primary (V)').fill('130')
    await page.getByRole('button', { name: 'Suggest a pole' }).click()
    await page.getByText('Must be below the high limit.').waitFor()
    expect(new URL(page.url()).searchParams.get('study')).toBeNull()
    expect(await seriousFindings(page)).toEqual([])
  })
})

describe('adding a feeder', () => {
  const filesOf = (layers: Readonly<Record<string, unknown>>) =>
    Object.entries(layers).map(([name, layer]) => ({
      name,
      mimeType: 'application/json',
      buffer: Buffer.from(JSON.stringify(layer)),
    }))

  it('refuses it whole and lists every finding in words, then takes the mended one', async () => {
    const { page } = await walkPlanner(`&feeder=${FEEDER}&view=add`)
    const good = smallFeeder({ id: 'added-by-test', name: 'Added feeder' })
    const [first, ...rest] = good.spans
    if (!first) throw new Error('The small feeder has no span.')
    const bad = { ...good, spans: [{ ...first, to: 'nowhere' }, ...rest] }
    await page.getByLabel('Files of the folder').setInputFiles(filesOf(layersOfFeeder(bad)))
    await page.getByRole('button', { name: 'Add the feeder' }).click()
    await page.getByText('Refused whole: nothing of it was kept.').waitFor()
    await page
      .getByRole('list', { name: /findings/ })
      .getByText('nowhere')
      .first()
      .waitFor()
    await keepPicture(page, 'planner-refused-desktop')
    expect(await seriousFindings(page)).toEqual([])
    await page.getByLabel('Files of the folder').setInputFiles(filesOf(layersOfFeeder(good)))
    await page.getByRole('button', { name: 'Add the feeder' }).click()
    await page.getByText('Added as added-by-test, version 1').waitFor()
    await page.getByRole('button', { name: 'Open it' }).click()
    await page.getByRole('heading', { name: /on Added feeder, “Peak”/ }).waitFor()
  })
})

describe('the planner’s desk on a phone', () => {
  it('is a sheet of three heights with the profile as a tab, and never scrolls sideways', async () => {
    const { page, complaints } = await openPlanner(`&feeder=${FEEDER}&pole=S-245`, {
      viewport: PHONE,
      hasTouch: true,
    })
    await page.getByRole('region', { name: 'Pole S-245' }).waitFor()
    const handle = page.getByRole('button', { name: /^Sheet height: half/ })
    await handle.focus()
    await page.keyboard.press('ArrowUp')
    await page.getByRole('button', { name: /^Sheet height: full/ }).waitFor()
    const overflow = await page.evaluate(
      () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
    )
    expect(overflow).toBe(0)
    const sheetOverflow = await page.evaluate(() => {
      const body = document.querySelector('.snap-sheet-body')
      return body ? body.scrollWidth - body.clientWidth : -1
    })
    expect(sheetOverflow).toBe(0)
    await mapIsIdle(page)
    await keepPicture(page, 'planner-pole-phone')
    expect(await seriousFindings(page)).toEqual([])
    await page.keyboard.press('ArrowDown')
    await page.getByRole('button', { name: 'Profile' }).click()
    await page.getByRole('img', { name: /^Voltage along the line/ }).waitFor()
    await keepPicture(page, 'planner-profile-phone')
    expect(complaints).toEqual([])
  })

  it('reads in the dark', async () => {
    const { page } = await openPlanner(`&feeder=${FEEDER}`, {
      viewport: PHONE,
      hasTouch: true,
      colorScheme: 'dark',
    })
    await page.getByRole('heading', { name: /customers below 118 V/ }).waitFor()
    await mapIsIdle(page)
    await keepPicture(page, 'planner-desk-phone-dark')
    expect(await seriousFindings(page)).toEqual([])
  })
})
