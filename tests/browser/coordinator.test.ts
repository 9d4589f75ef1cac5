import type { Page } from 'playwright-core'
import { beforeAll, describe, expect, it } from 'vitest'
import type { BirdSettingsRecord } from '#contract/bird-settings.ts'
import type { ProgrammeRecord } from '#contract/programmes.ts'
import type { ProtectionRecord } from '#contract/protections.ts'
import { assessFeeder } from '#domain/avian/assessment/assess-feeder.ts'
import type { PoleState } from '#domain/avian/assessment/pole-assessment.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import { readDemoFeeder } from '../support/demo-feeder.ts'
import {
  DESKTOP,
  type DeskPage,
  keepPicture,
  mapIsIdle,
  PHONE,
  seriousFindings,
} from '../support/desk-page.ts'
import { deskSession } from '../support/desk-session.ts'

const FEEDER = 'skillet'
/** The map draws in its own time. */
const PATIENTLY = { timeout: 60_000 }
const session = deskSession({}, { isWithoutLand: true })
let feeder: Feeder

beforeAll(async () => {
  feeder = await readDemoFeeder(FEEDER)
})

const openCoordinator = (rest = '', options = {}): Promise<DeskPage> =>
  session.open(`&feeder=${FEEDER}&person=coordinator${rest}`, options)
const walkCoordinator = (rest = ''): Promise<DeskPage> =>
  session.walk(`&feeder=${FEEDER}&person=coordinator${rest}`)

const STATE_WORDS: Readonly<Record<PoleState, string>> = {
  separated: 'separated as framed',
  covered: 'covered: all pairs closed',
  'partly done': 'partly done: some pairs are left',
  open: 'open: pairs can be bridged',
  failed: 'failed: open again',
  unknown: 'not known: nothing recorded',
}

/** As the domain has it; its own tests hold it against published figures. */
const assessed = () => assessFeeder(feeder, { choices: [], protections: feeder.protections })

/** What the map draws of a layer, by a property that tells one thing from another. */
async function drawnBy(page: Page, layer: string, property: string): Promise<string[]> {
  const found = await page.evaluate(
    ([id, name]) =>
      (window.crossarmMap?.queryRenderedFeatures({ layers: [id] }) ?? []).map(
        ({ properties }) => properties[name] as string,
      ),
    [layer, property] as const,
  )
  return [...new Set(found)]
}

const panelOf = (page: Page, pole: string) => page.getByRole('article', { name: `Pole ${pole}` })
const itemsOf = (page: Page) => page.getByRole('region', { name: 'Guards, covers and perches' })

async function addItem(page: Page, what: string): Promise<void> {
  await page.getByRole('button', { name: 'Add a guard, cover or perch' }).click()
  const form = page.getByRole('form', { name: /New item/ })
  await form.getByLabel('What it covers or where it sits').fill(what)
  await form.getByLabel('Date of the state').fill('2026-10-05')
  await form.getByRole('button', { name: 'Save' }).click()
  await page.getByRole('button', { name: `Edit cover, ${what}` }).waitFor()
}

async function itemOnServer(what: string): Promise<ProtectionRecord> {
  const answer = await session.ask(`/api/feeders/${FEEDER}/protections`)
  const items = (await answer.json()) as ProtectionRecord[]
  const found = items.find((item) => item.what === what)
  if (!found) throw new Error(`The record holds no "${what}".`)
  return found
}

describe('the coordinator’s desk', () => {
  it('opens with how many poles an eagle can bridge, and each part of the line filters the list', async () => {
    const { page, complaints } = await openCoordinator()
    const poles = assessed()
    const expected = poles.filter(({ pairs }) => pairs.length > 0).length
    const line = page.getByRole('button', {
      name: `${expected} poles where an eagle can bridge energized parts`,
    })
    await line.waitFor(PATIENTLY)
    await page.getByText(/of the first 20 stay among the first 20/).waitFor()
    await mapIsIdle(page)
    const open = poles.filter(({ state }) => state === 'open').map(({ poleId }) => poleId)
    await expect
      .poll(async () => (await drawnBy(page, 'bird-poles', 'pole')).length, PATIENTLY)
      .toBe(poles.length)
    for (const state of new Set(poles.map((pole) => pole.state))) {
      await page.getByRole('listitem').filter({ hasText: STATE_WORDS[state] }).waitFor()
    }
    await keepPicture(page, 'coordinator-desk-desktop')
    expect(await seriousFindings(page)).toEqual([])

    await line.click()
    await page.getByRole('status').getByText(`${expected} of ${poles.length} poles`).waitFor()
    await page.getByLabel('State', { exact: true }).selectOption('open')
    await page.getByRole('status').getByText(`${open.length} of ${poles.length} poles`).waitFor()
    await page.getByLabel('Can be bridged by').selectOption('american-kestrel')
    const kestrel = poles.filter(
      ({ state, bySpecies }) =>
        state === 'open' &&
        bySpecies.some(({ speciesId, pairs }) => speciesId === 'american-kestrel' && pairs > 0),
    ).length
    await page.getByRole('status').getByText(`${kestrel} of ${poles.length} poles`).waitFor()
    await page.getByRole('button', { name: 'Show all poles' }).first().click()

    await page.getByRole('button', { name: 'How the order comes about' }).click()
    await page.getByRole('dialog').getByText('Rank = hazard × exposure').waitFor()
    await page.getByRole('dialog').getByText('Weight: nest').waitFor()
    await page.keyboard.press('Escape')

    await page.getByLabel('Poles by state').uncheck()
    await page.getByText('open: pairs can be bridged').waitFor({ state: 'detached' })
    expect(complaints).toEqual([])
  })

  it('says for a chosen day which buffers are in season, as rings on the map and in the legend', async () => {
    const { page } = await walkCoordinator()
    await mapIsIdle(page)
    const rings = async () => [
      (await drawnBy(page, 'bird-buffers-in-season', 'id')).length,
      (await drawnBy(page, 'bird-buffers-out-of-season', 'id')).length,
    ]
    const expected = (day: number) => {
      const inSeason = feeder.nests.filter(({ seasonFrom, seasonTo }) => {
        const [from = 0, to = 0] = [seasonFrom, seasonTo].map((end) => Number(end.replace('-', '')))
        return from <= to ? day >= from && day <= to : day >= from || day <= to
      }).length
      return [inSeason, feeder.nests.length - inSeason]
    }
    await page.getByLabel('Day for nest buffers').fill('2027-05-20')
    await page.getByText('in season on 20 May 2027').first().waitFor()
    await expect.poll(rings, PATIENTLY).toEqual(expected(520))
    await page.getByLabel('Day for nest buffers').fill('2027-01-05')
    await expect.poll(rings, PATIENTLY).toEqual(expected(105))
  })

  it('finds a pole by part of its id and opens its drawing, and the arrow keys go along the tabs', async () => {
    const { page } = await walkCoordinator()
    const pole = assessed().find(({ state }) => state === 'open')?.poleId
    if (!pole) throw new Error('The demo has no open pole.')
    await page.getByLabel('Find a pole by any part of its id').fill(pole.toLowerCase())
    await page
      .getByRole('button', { name: new RegExp(`Pole ${pole}\\b`) })
      .first()
      .click()
    await panelOf(page, pole)
      .getByText(/Tightest for the eagle/)
      .waitFor(PATIENTLY)
    expect(new URL(page.url()).searchParams.get('pole')).toBe(pole)
    await page.getByRole('tab', { name: 'Poles' }).press('End')
    await page.getByRole('tab', { name: 'Settings', selected: true }).waitFor()
    await page.getByRole('form', { name: 'Settings of bird work' }).waitFor()
    expect(new URL(page.url()).searchParams.get('view')).toBe('settings')
  })
})

describe('the year', () => {
  it('spends a budget on poles, keeps what came of it, draws its rounds, and settles a conflict', async () => {
    const { page, complaints } = await openCoordinator('&view=year')
    await page.getByLabel('Budget as a figure').fill('15000')
    await page.getByText(/of \$15,000/).waitFor({ timeout: 120_000 })
    await page
      .getByRole('region', { name: 'Rounds' })
      .getByText(/^Round 1/)
      .waitFor()
    await page.getByRole('button', { name: 'Keep as programme' }).click()
    const form = page.getByRole('form', { name: 'Keep as programme' })
    await form.getByLabel('Name').fill('Eagle work')
    await form.getByLabel('State').selectOption('in force')
    await form.getByRole('button', { name: 'Keep', exact: true }).click()
    await page.getByRole('article', { name: 'Programme Eagle work' }).waitFor(PATIENTLY)
    expect(await seriousFindings(page)).toEqual([])

    const asked = await session.ask(`/api/feeders/${FEEDER}/programmes`, { role: 'coordinator' })
    const [kept] = (await asked.json()) as ProgrammeRecord[]
    if (!kept) throw new Error('No programme was kept.')
    expect(kept.programme.costUsd).toBeLessThanOrEqual(15_000)
    expect(kept.programme.poles.length).toBeGreaterThan(0)

    await page.getByRole('button', { name: 'Edit name, note and state' }).click()
    const edit = page.getByRole('form', { name: 'Name, note and state of Eagle work' })
    await edit.getByLabel('Note').fill('mine')
    const theirs = { name: 'Eagle work', note: 'theirs', state: 'in force', version: kept.version }
    const saved = await session.ask(`/api/feeders/${FEEDER}/programmes/${kept.id}`, {
      role: 'supervisor',
      method: 'PUT',
      body: theirs,
    })
    expect(saved.status).toBe(200)
    await edit.getByRole('button', { name: 'Save', exact: true }).click()
    const both = edit.getByRole('alert', { name: 'Two versions of this programme' })
    await both
      .getByRole('group', { name: 'Note, changed by both' })
      .getByRole('radio', { name: /^Yours/ })
      .check()
    await both.getByRole('button', { name: 'Save what is chosen' }).click()
    await page.getByRole('article').getByText('mine', { exact: true }).waitFor()

    await page.getByRole('tab', { name: 'Poles' }).click()
    await page.getByText('pole of Eagle work').waitFor()
    await mapIsIdle(page)
    const wanted = kept.programme.rounds.flatMap(({ poles }) => poles)
    await expect
      .poll(async () => (await drawnBy(page, 'bird-round-stops', 'pole')).sort(), PATIENTLY)
      .toEqual([...wanted].sort())
    await keepPicture(page, 'coordinator-year-desktop')
    expect(complaints).toHaveLength(1)
    expect(complaints[0]).toMatch(/409/)
  })
})

describe('the settings', () => {
  it('take a figure with its source, refuse one without, and change what the poles are held against', async () => {
    const { page } = await walkCoordinator('&view=settings')
    const form = page.getByRole('form', { name: 'Settings of bird work' })
    await form.getByText('Sizes of species').click()
    await form.getByLabel('osprey, wrist to wrist').fill('45')
    await form.getByRole('button', { name: 'Save the settings' }).click()
    const source = form.getByLabel('Source of the figures for the osprey')
    expect(await source.getAttribute('aria-invalid')).toBe('true')
    await source.fill('Made up for a test')
    await form.getByText('Nest buffers').click()
    await form.getByLabel('Set in force').selectOption('utah-2002')
    await form.getByRole('button', { name: 'Copy this set to edit it' }).click()
    await form.getByRole('button', { name: 'Save the settings' }).click()
    await page.getByText(/^Last set by|Last set by/).waitFor(PATIENTLY)
    const answer = await session.ask('/api/bird-settings', { role: 'coordinator' })
    const { settings } = (await answer.json()) as BirdSettingsRecord
    expect(settings.species).toEqual([
      { id: 'osprey', breadthM: 45 * 0.0254, source: 'Made up for a test' },
    ])
    expect(settings.bufferSetId).toBe('own-1')
    expect(settings.bufferSets[0]?.rules.length).toBeGreaterThan(10)
    expect(await seriousFindings(page)).toEqual([])
  })
})

describe('an item on a pole', () => {
  const pole = () => feeder.poles[3]?.id ?? ''

  it('is added, survives a reload, is edited, and its history tells both', async () => {
    const { page, complaints } = await walkCoordinator(`&pole=${pole()}`)
    await addItem(page, 'test bushing cover, A phase')
    await page.reload()
    await page.getByRole('button', { name: 'Edit cover, test bushing cover, A phase' }).click()
    const form = page.getByRole('form', { name: /Edit cover/ })
    await form.getByLabel('State', { exact: true }).selectOption('failed')
    await form.getByLabel('Note').fill('cracked at the stud')
    await keepPicture(page, 'coordinator-edit-desktop')
    expect(await seriousFindings(page)).toEqual([])
    await form.getByRole('button', { name: 'Save' }).click()
    await itemsOf(page).getByText('cracked at the stud').waitFor()
    await page
      .getByRole('button', { name: 'History of cover, test bushing cover, A phase' })
      .click()
    const history = page.getByRole('region', { name: /History of cover/ })
    await history.getByText('State: planned → became failed').waitFor()
    await history.getByText('Note: nothing → became cracked at the stud').waitFor()
    await history.getByText(/^Recorded the cover “test bushing cover, A phase”/).waitFor()
    await history.getByText('Demo coordinator (bird coordinator)').first().waitFor()
    const stored = await itemOnServer('test bushing cover, A phase')
    expect(stored).toMatchObject({ state: 'failed', on: '2026-10-05', version: 2 })
    expect(stored.changedBy.role).toBe('coordinator')
    expect(complaints).toEqual([])
  })

  it('is deleted and brought back by undo, both on the record', async () => {
    const { page } = await openCoordinator(`&pole=${pole()}`)
    await addItem(page, 'perch to delete')
    await page.getByRole('button', { name: 'Delete the entry cover, perch to delete' }).click()
    await page.getByText('Deleted from the record: cover, perch to delete').waitFor()
    await expect(itemOnServer('perch to delete')).rejects.toThrow('holds no')
    await page.getByRole('button', { name: 'Undo the deletion' }).click()
    await page.getByRole('button', { name: 'History of cover, perch to delete' }).click()
    const history = page.getByRole('region', { name: /History of cover/ })
    await history.getByText(/^Deleted the cover “perch to delete”/).waitFor()
    await history.getByText(/^Restored the cover “perch to delete”/).waitFor()
    expect((await itemOnServer('perch to delete')).deletedAt).toBeNull()
  })

  it('without words is refused beside the field, and what was typed outlives a reload', async () => {
    const { page } = await walkCoordinator(`&pole=${pole()}`)
    await page.getByRole('button', { name: 'Add a guard, cover or perch' }).click()
    const form = page.getByRole('form', { name: /New item/ })
    await form.getByLabel('Note').fill('typed before the reload')
    await form.getByRole('button', { name: 'Save' }).click()
    await form.getByText('Say what it covers or where it sits').waitFor()
    expect(
      await form.getByLabel('What it covers or where it sits').getAttribute('aria-invalid'),
    ).toBe('true')
    await page.reload()
    expect(await form.getByLabel('Note').inputValue()).toBe('typed before the reload')
    await form.getByRole('button', { name: 'Give up' }).click()
    await form.waitFor({ state: 'detached' })
  })

  it('that someone else saved meanwhile is shown in both versions, to be chosen field by field', async () => {
    const { page } = await walkCoordinator(`&pole=${pole()}`)
    await addItem(page, 'contested guard')
    await page.getByRole('button', { name: 'Edit cover, contested guard' }).click()
    const form = page.getByRole('form', { name: /Edit cover/ })
    await form.getByLabel('Note').fill('mine, typed slowly')
    const { id, version, kind, what, on } = await itemOnServer('contested guard')
    const theirs = { pole: pole(), kind, what, on, state: 'on', note: 'theirs', version }
    const saved = await session.ask(`/api/feeders/${FEEDER}/protections/${id}`, {
      role: 'supervisor',
      method: 'PUT',
      body: theirs,
    })
    expect(saved.status).toBe(200)
    await form.getByRole('button', { name: 'Save', exact: true }).click()
    const both = form.getByRole('alert', { name: 'Two versions of this item' })
    await both.getByText('Demo supervisor changed this item while you were typing.').waitFor()
    const note = both.getByRole('group', { name: 'Note, changed by both' })
    await note.getByText('theirs', { exact: true }).waitFor()
    await keepPicture(page, 'coordinator-newer-record-desktop')
    expect(await seriousFindings(page)).toEqual([])
    expect(await form.getByLabel('Note', { exact: true }).inputValue()).toBe('mine, typed slowly')
    await note.getByRole('radio', { name: /^Yours/ }).check()
    await both.getByRole('button', { name: 'Save what is chosen' }).click()
    await itemsOf(page).getByText('mine, typed slowly').waitFor()
    expect(await itemOnServer('contested guard')).toMatchObject({
      note: 'mine, typed slowly',
      state: 'on',
      version: 3,
    })
  })
})

describe('elsewhere', () => {
  it('the desk of a published feeder says that its points stand for no known poles', async () => {
    const desk = await session.walk('&feeder=ieee34&person=coordinator')
    await desk.page.getByText('stand for no known poles').waitFor()
  })

  it('a phone shows list and pole without anything sticking out sideways', async () => {
    const { page } = await openCoordinator('', { viewport: PHONE, hasTouch: true, isMobile: true })
    await page.getByText(/poles where an eagle can bridge energized parts/).waitFor(PATIENTLY)
    await mapIsIdle(page)
    await keepPicture(page, 'coordinator-desk-phone')
    await page
      .getByRole('list', { name: /first what to do first/ })
      .getByRole('button')
      .first()
      .click()
    await page.getByRole('article').waitFor()
    await expect
      .poll(() => page.evaluate(() => window.crossarmMap?.getZoom()), PATIENTLY)
      .toBeGreaterThan(14.9)
    await mapIsIdle(page)
    await keepPicture(page, 'coordinator-pole-phone')
    const sticksOut = await page.evaluate(() => {
      const wide = [...document.querySelectorAll('article :not(svg *)')].filter(
        (element) => element.getBoundingClientRect().right > window.innerWidth + 1,
      )
      return wide.map((element) => element.outerHTML.slice(0, 120))
    })
    expect(sticksOut).toEqual([])
    expect(await seriousFindings(page)).toEqual([])
    await page.setViewportSize(DESKTOP)
  })
})
