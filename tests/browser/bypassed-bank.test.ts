import { beforeAll, describe, expect, it } from 'vitest'
import { keepPicture, mapIsIdle, seriousFindings } from '../support/desk-page.ts'
import { deskSession } from '../support/desk-session.ts'
import { regulator, smallLayers } from '../unit/layer-files/small-layers.ts'

const { open, ask } = deskSession({}, { isWithoutLand: true })

const STANDING = { state: 'bypassed', name: 'Mill bank', serial_a: 'N-4417', tap_c: 2 }

beforeAll(async () => {
  const layers = smallLayers({ equipment: [regulator(STANDING)] })
  const taken = await ask('/api/feeders', { method: 'POST', body: { layers } })
  expect(taken.status).toBe(201)
})

describe('a feeder on which a bank stands bypassed', () => {
  it('says so in the planner’s first lines, with the step to its pole, and on the strip', async () => {
    const { page, complaints } = await open('&feeder=small')
    await page.getByText('stands bypassed: it holds no voltage').waitFor()
    await page.getByText('Regulator, bypassed', { exact: true }).waitFor()
    expect(await seriousFindings(page)).toEqual([])
    await page.getByRole('button', { name: 'pole P2', exact: true }).click()
    const card = page.getByRole('region', { name: 'Pole P2' })
    await card.getByText('Voltage regulator bank, bypassed (Mill bank, R1)').waitFor()
    expect(await card.textContent()).toContain('serial numbers N-4417 (A)')
    await card.getByText('It stands bypassed with C at +2').waitFor()
    await keepPicture(page, 'bypassed-bank')
    expect(complaints).toEqual([])
  })

  it('has a symbol of its own on the map and a line in the legend', async () => {
    const { page } = await open('&feeder=small')
    await mapIsIdle(page)
    await page.getByText('Symbols').click()
    await page.getByText('Voltage regulator, bypassed').waitFor()
    expect(await page.getByText('Voltage regulator', { exact: true }).count()).toBe(0)
    const symbols = await page.evaluate(() =>
      window.crossarmMap
        ?.queryRenderedFeatures({ layers: ['feeder-equipment-main'] })
        .map(({ properties }) => properties.symbol),
    )
    expect(symbols).toContain('regulator-bypassed')
  })
})
