import type { Page } from 'playwright-core'
import { beforeAll, describe, expect, it } from 'vitest'
import type { ProtectionRecord } from '#contract/protections.ts'
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
const session = deskSession()
let feeder: Feeder

beforeAll(async () => {
  feeder = await readDemoFeeder(FEEDER)
})

const openCoordinator = (rest = '', options = {}): Promise<DeskPage> =>
  session.open(`&feeder=${FEEDER}&person=coordinator${rest}`, options)

/** Inches of a recorded gap; the guidance of 60 in and 40 in is APLIC 2006, from memory. */
const inches = (lengthM: number | undefined): number => (lengthM ?? 0) / 0.0254

/** Counted here anew: both gaps of a pair recorded, and neither reaching guidance. */
function isBridgeable(pole: Feeder['poles'][number]): boolean {
  const isShort = (across?: number, up?: number): boolean =>
    across !== undefined && up !== undefined && inches(across) < 60 - 1e-4 && inches(up) < 40 - 1e-4
  return (
    isShort(pole.phaseToPhaseHorizontalM, pole.phaseToPhaseVerticalM) ||
    isShort(pole.phaseToGroundHorizontalM, pole.phaseToGroundVerticalM)
  )
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
  it('opens with how many poles an eagle can bridge, and draws each pole by its verdict', async () => {
    const { page, complaints } = await openCoordinator()
    const expected = feeder.poles.filter(isBridgeable).length
    const failed = feeder.protections.filter(({ state }) => state === 'failed').length
    await page.getByText(`${expected} poles where an eagle can bridge parts`).waitFor()
    await page.getByText(`${failed} items failed`).waitFor()
    await mapIsIdle(page)
    const drawn = await page.evaluate(() => {
      const found = window.crossarmMap?.queryRenderedFeatures({ layers: ['bird-poles'] }) ?? []
      const poles = new Map(found.map(({ properties }) => [properties.pole, properties.verdict]))
      return [...poles.values()].filter((verdict) => verdict === 'bridgeable').length
    })
    expect(drawn).toBe(expected)
    await keepPicture(page, 'coordinator-desk-desktop')
    expect(await seriousFindings(page)).toEqual([])
    expect(complaints).toEqual([])
  })

  it('finds a pole by part of its id and shows its gaps against the cited guidance', async () => {
    const { page, complaints } = await openCoordinator()
    const pole = feeder.poles.find(isBridgeable)
    if (!pole) throw new Error('The demo has no pole to find.')
    await page.getByLabel('Find a pole by any part of its id').fill(pole.id.toLowerCase())
    await page
      .getByRole('button', { name: new RegExp(`Pole ${pole.id}\\b`) })
      .first()
      .click()
    const panel = panelOf(page, pole.id)
    await panel.getByText('60 in (1.524 m)').waitFor()
    await panel.getByText('Avian Power Line Interaction Committee').waitFor()
    await panel.getByText('How sure: from memory').waitFor()
    await panel.getByText('an eagle can bridge it').first().waitFor()
    expect(new URL(page.url()).searchParams.get('pole')).toBe(pole.id)
    await mapIsIdle(page)
    await keepPicture(page, 'coordinator-pole-desktop')
    expect(await seriousFindings(page)).toEqual([])
    await panel.getByRole('button', { name: 'Show the working' }).click()
    await page.getByRole('dialog').getByText('horizontal ≥ 60 in').waitFor()
    expect(complaints).toEqual([])
  })

  it('says in season and out of season with the month, in words and as rings on the map', async () => {
    const { page } = await openCoordinator()
    const rings = async (month: string) => {
      await page.getByLabel('Month for nest seasons').selectOption({ label: month })
      return () =>
        page.evaluate(() => {
          const ids = (layer: string) =>
            new Set(
              window.crossarmMap
                ?.queryRenderedFeatures({ layers: [layer] })
                .map(({ properties }) => properties.id),
            ).size
          return [ids('bird-buffers-in-season'), ids('bird-buffers-out-of-season')]
        })
    }
    const expected = (month: number) => {
      const inSeason = feeder.nests.filter(({ seasonFrom, seasonTo }) => {
        const days = Array.from({ length: 31 }, (_, day) => month * 100 + day + 1)
        const [from, to] = [seasonFrom, seasonTo].map((day) => Number(day.replace('-', '')))
        if (from === undefined || to === undefined) return false
        return days.some((day) =>
          from <= to ? day >= from && day <= to : day >= from || day <= to,
        )
      }).length
      return [inSeason, feeder.nests.length - inSeason]
    }
    await mapIsIdle(page)
    await expect.poll(await rings('May'), PATIENTLY).toEqual(expected(5))
    await expect.poll(await rings('November'), PATIENTLY).toEqual(expected(11))
  })
})

describe('an item on a pole', () => {
  const pole = () => feeder.poles[3]?.id ?? ''

  it('is added, survives a reload, is edited, and its history tells both', async () => {
    const { page, complaints } = await openCoordinator(`&pole=${pole()}`)
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
    const { page } = await openCoordinator(`&pole=${pole()}`)
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
    const { page } = await openCoordinator(`&pole=${pole()}`)
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
    const desk = await session.open('&feeder=ieee34&person=coordinator')
    await desk.page.getByText('stand for no known poles').waitFor()
  })

  it('a phone shows list and pole without anything sticking out sideways', async () => {
    const { page } = await openCoordinator('', { viewport: PHONE, hasTouch: true, isMobile: true })
    await page.getByText(/poles where an eagle can bridge parts by/).waitFor()
    await mapIsIdle(page)
    await keepPicture(page, 'coordinator-desk-phone')
    await page
      .getByRole('list', { name: /most urgent first/ })
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
      const wide = [...document.querySelectorAll('article *')].filter(
        (element) => element.getBoundingClientRect().right > window.innerWidth + 1,
      )
      return wide.map((element) => element.outerHTML.slice(0, 120))
    })
    expect(sticksOut).toEqual([])
    expect(await seriousFindings(page)).toEqual([])
    await page.setViewportSize(DESKTOP)
  })
})
