import type { Page } from 'playwright-core'
import { beforeAll, describe, expect, it } from 'vitest'
import { layersOfFeeder } from '../../server/layer-files/layers-of-feeder.ts'
import { keepPicture, PHONE, seriousFindings } from '../support/desk-page.ts'
import { deskSession } from '../support/desk-session.ts'
import { smallFeeder } from '../support/small-feeder.ts'

const ON_PHONE = { viewport: PHONE, hasTouch: true, isMobile: true }
const session = deskSession({}, { isWithoutLand: true })

beforeAll(async () => {
  for (const [id, name] of [
    ['ridge', 'Ridge feeder'],
    ['mill', 'Mill feeder'],
  ] as const) {
    const body = { layers: layersOfFeeder(smallFeeder({ id, name })) }
    expect((await session.ask('/api/feeders', { method: 'POST', body })).status).toBe(201)
  }
})

const sheetOf = (page: Page) => page.getByRole('dialog', { name: 'Work under way and done' })

describe('long work', () => {
  it('on several feeders is begun at the desk, followed in a list, and opened from it', async () => {
    const at = '&feeder=ridge&person=planner'
    const { page, complaints } = await session.open(at, {}, 'supervisor')
    await page.getByRole('button', { name: 'Study several feeders' }).click()
    await page.getByRole('checkbox', { name: /^Ridge feeder,/ }).check()
    await page.getByRole('checkbox', { name: /^Mill feeder,/ }).check()
    await page.getByRole('button', { name: 'Study 2 feeders' }).click()
    const sheet = sheetOf(page)
    const studies = sheet.getByRole('article', { name: 'Siting studies of 2 feeders' })
    await studies.getByText('Done.').first().waitFor()
    await studies.getByText(/^Demo supervisor \(supervisor\)/).waitFor()
    await studies.getByRole('button', { name: /^Each of/ }).click()
    const one = studies.getByRole('article', { name: 'Siting study of Mill feeder' })
    await one.getByRole('button', { name: /^History of/ }).click()
    await one.getByText('Started a siting study.').waitFor()
    await keepPicture(page, 'long-work-desktop')
    expect(await seriousFindings(page)).toEqual([])
    await one.getByRole('button', { name: /^Open:/ }).click()
    await page.getByRole('heading', { name: 'Suggested poles' }).waitFor()
    expect(new URL(page.url()).searchParams.get('feeder')).toBe('mill')
    await page.getByRole('button', { name: 'History of the siting study' }).click()
    await page.getByText('Started a siting study.').waitFor()
    expect(complaints).toEqual([])
  })

  it('makes a report of the history on a phone, which is saved as a file', async () => {
    const { page, complaints } = await session.open('&feeder=ridge', ON_PHONE, 'supervisor')
    await page.getByRole('button', { name: 'More', exact: true }).click()
    await page.getByRole('button', { name: /Demo supervisor/ }).click()
    await page.getByRole('button', { name: 'Work under way and done' }).first().click()
    const sheet = sheetOf(page)
    await sheet.getByText('Make a report of the history').click()
    await sheet.getByLabel('History of').selectOption({ label: 'Ridge feeder' })
    await sheet.getByLabel('First day').fill('2026-02-02')
    await sheet.getByLabel('Last day').fill('2026-02-01')
    await sheet.getByText('The last day is before the first. Put one of them right.').waitFor()
    await sheet.getByLabel('Last day').fill('')
    await sheet.getByRole('button', { name: 'Make the report' }).click()
    const report = sheet.getByRole('article', {
      name: 'Report of the history of Ridge feeder, from 2026-02-02, as a table',
    })
    const saved = page.waitForEvent('download')
    await report.getByRole('button', { name: /^Save the file/ }).click()
    expect((await saved).suggestedFilename()).toBe('history-ridge-2026-02-02-now.csv')
    await keepPicture(page, 'long-work-phone')
    expect(await seriousFindings(page)).toEqual([])
    const overflowPx = await sheet.evaluate(
      ({ scrollWidth, clientWidth }) => scrollWidth - clientWidth,
    )
    expect(overflowPx).toBeLessThanOrEqual(0)
    expect(complaints).toEqual([])
  })

  it('takes a feeder in while the planner goes on, and opens it', async () => {
    const { page, complaints } = await session.open('&feeder=ridge&person=planner&view=add')
    const layers = layersOfFeeder(smallFeeder({ id: 'brook', name: 'Brook feeder' }))
    const files = Object.entries(layers).map(([name, layer]) => ({
      name,
      mimeType: 'application/json',
      buffer: Buffer.from(JSON.stringify(layer)),
    }))
    await page.getByLabel('Files of the folder').setInputFiles(files)
    await page.getByRole('button', { name: 'Add it in the background' }).click()
    await page.getByText('The work is done.').waitFor()
    await page.getByRole('button', { name: 'Work under way and done' }).click()
    const taking = sheetOf(page).getByRole('article', { name: 'Taking in Brook feeder' })
    await taking.getByRole('button', { name: 'Open brook, version 1' }).click()
    await page.getByRole('heading', { name: /on Brook feeder/ }).waitFor()
    expect(complaints).toEqual([])
  })
})
