import mgrs from 'mgrs'
import type { Page } from 'playwright-core'
import { beforeAll, describe, expect, it } from 'vitest'
import type { CaseSolution } from '#domain/electrical/solution.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import type { Pole } from '#domain/feeder/pole.ts'
import { declinationAt } from '../../web/crew/declination.ts'
import { modelFeeder } from '../../web/state/feeder-model.ts'
import { readDemoFeeder } from '../support/demo-feeder.ts'
import {
  type DeskPage,
  keepPicture,
  mapIsIdle,
  PHONE,
  seriousFindings,
} from '../support/desk-page.ts'
import { deskSession } from '../support/desk-session.ts'
import { lowContrast } from '../support/gloves-and-sun.ts'

const FEEDER = 'thimble'
const session = deskSession()
let feeder: Feeder
let pole: Pole

beforeAll(async () => {
  feeder = await readDemoFeeder(FEEDER)
  const middle = feeder.poles[Math.floor(feeder.poles.length / 2)]
  if (!middle) throw new Error('The demo feeder has no poles.')
  pole = middle
})

const openCrew = (rest = '', options = {}): Promise<DeskPage> =>
  session.open(`&feeder=${FEEDER}&person=crew${rest}`, options)

/** With the tab open on which poles are found. */
const openFinder = (options = {}): Promise<DeskPage> => openCrew('&view=pole%20finder', options)

const search = (page: Page) => page.getByLabel('Pole number, job or coordinates')
const rows = (page: Page) => page.getByRole('list', { name: 'Poles found' }).getByRole('button')
/** What a browser must grant before it tells how the device is turned. */
const SENSORS = ['accelerometer', 'gyroscope', 'magnetometer'] as const
/** The base map is what takes longest; most of these tests are not about it. */
const NO_LAND = { isWithoutLand: true }
const PHONE_OPTIONS = { viewport: PHONE, hasTouch: true, isMobile: true }

/** Equirectangular distance on the mean earth (6371.0088 km): good to millimetres over a mile. */
function groundDistanceM(a: readonly number[], b: readonly number[]): number {
  const [lonA = 0, latA = 0] = a
  const [lonB = 0, latB = 0] = b
  const metresPerDegree = (6_371_008.8 * Math.PI) / 180
  const middle = (((latA + latB) / 2) * Math.PI) / 180
  return metresPerDegree * Math.hypot(latB - latA, (lonB - lonA) * Math.cos(middle))
}

describe('finding a pole', () => {
  it('by a scrap of its id lists it and opens it with its neighbours up and down the line', async () => {
    const { page, complaints } = await openFinder({ ...PHONE_OPTIONS, ...NO_LAND })
    await search(page).fill(pole.id.replace(/^\D+/, ''))
    await rows(page).filter({ hasText: pole.id }).first().click()
    const panel = page.getByRole('article', { name: `Pole ${pole.id}` })
    await panel.waitFor()
    const ends = feeder.spans.filter(({ from, to }) => from === pole.id || to === pole.id)
    const neighbours = panel.getByRole('region', { name: 'Next poles' })
    for (const { from, to } of ends) {
      await neighbours.getByText(from === pole.id ? to : from, { exact: true }).waitFor()
    }
    await neighbours.getByText('Toward the source').first().waitFor()
    expect(complaints).toEqual([])
  })

  it('by a grid reference or degrees in any form gives the pole that stands there first, and by nonsense says what can be typed', async () => {
    const { page } = await openFinder(NO_LAND)
    const [lon, lat] = pole.at
    const minutes = (value: number) => ((Math.abs(value) % 1) * 60).toFixed(4)
    for (const [typed, notation] of [
      [mgrs.forward([...pole.at]), 'US National Grid'],
      [`${lat} ${lon}`, 'degrees'],
      [`${Math.floor(lat)}°${minutes(lat)}' N ${Math.floor(-lon)}°${minutes(lon)}' W`, 'degrees'],
    ] as const) {
      await search(page).fill('')
      await search(page).fill(typed)
      await page.getByText(`read as ${notation}`).waitFor()
      expect(await rows(page).first().textContent()).toContain(pole.id)
    }
    for (const [typed, answer] of [
      ['no such pole', 'does not read as coordinates'],
      ['43.5 107.2', 'West and south need a minus sign or a letter'],
      ['13T CJ 1234 567', 'as many digits for east as for north'],
    ] as const) {
      await search(page).fill(typed)
      await page.getByText(answer).waitFor()
    }
    // Nobody has let this page know the position.
    await page.getByRole('button', { name: /Near me/ }).click()
    await page.getByText('does not let this page know your position').waitFor()
    await page.getByText('or type coordinates').waitFor()
  })
})

describe('the position of the device', () => {
  it('puts the nearest pole first, with its distance and bearing', async () => {
    const [lon, lat] = pole.at
    const device = { longitude: lon + 0.0011, latitude: lat + 0.0004, accuracy: 8 }
    const { page } = await openFinder({
      ...PHONE_OPTIONS,
      geolocation: device,
      permissions: ['geolocation'],
    })
    await page.getByRole('button', { name: /Near me/ }).click()
    await page.getByText('nearest first').waitFor()
    const at = [device.longitude, device.latitude]
    const nearest = feeder.poles
      .map(({ id, at: there }) => ({ id, distanceM: groundDistanceM(at, there) }))
      .sort((a, b) => a.distanceM - b.distanceM)[0]
    expect(await rows(page).first().textContent()).toContain(nearest?.id)
    const way = await rows(page).first().getByText(/ ft, /).textContent()
    const feet = Number(/^(\d+) ft/.exec(way ?? '')?.[1])
    expect(Math.abs(feet - (nearest?.distanceM ?? 0) / 0.3048)).toBeLessThan(1)
    await mapIsIdle(page)
    await keepPicture(page, 'crew-near-me-phone')
    await search(page).fill(pole.id)
    await rows(page).first().click()
    const place = page.getByRole('region', { name: 'Where it stands' })
    await place.getByText(/ft, \d+° true, (west|south-west)/).waitFor()
    const drawn = await page.evaluate(() => window.crossarmMap?.getLayer('crew-device-dot')?.id)
    expect(drawn).toBe('crew-device-dot')
  })
})

describe('the page of a pole', () => {
  it('turns its needle with the compass of the device from true north, and says how sure that is', async () => {
    const [lon, lat] = pole.at
    const { page } = await openCrew(`&pole=${pole.id}`, {
      ...PHONE_OPTIONS,
      ...NO_LAND,
      // Due south of the pole, so that it bears north.
      geolocation: { longitude: lon, latitude: lat - 0.001, accuracy: 5 },
      permissions: ['geolocation', ...SENSORS],
    })
    await page.getByRole('button', { name: /Near me/ }).click()
    const place = page.getByRole('region', { name: 'Where it stands' })
    await place.getByText(/ft, 0° true, north/).waitFor()
    await place.getByText('Arrows: north is up, as on the map.').waitFor()
    const turnWithMe = place.getByRole('button', { name: 'Turn the arrows with me' })
    await turnWithMe.click()
    await place.getByText('No reading came from a compass').waitFor()
    await place.getByText('The arrows stay with north up').waitFor()
    // Turned a quarter against the clock, alpha is 90° and the device points west of magnetic north.
    // A compass goes on sending; the page hears it once the browser has let it.
    await page.evaluate(() => {
      const turned = { alpha: 90, beta: 0, gamma: 0, absolute: true }
      const send = () =>
        window.dispatchEvent(new DeviceOrientationEvent('deviceorientationabsolute', turned))
      window.setInterval(send, 100)
    })
    await turnWithMe.click()
    await place.getByText('it does not say how far it may be off').waitFor()
    await place.getByText('to the right').waitFor()
    const { deg } = declinationAt([lon, lat - 0.001], new Date())
    await place.getByText(`magnetic declination ${deg.toFixed(1)}° E, WMM2025`).waitFor()
    const turn = await place.locator('.crew-way .way-arrow').getAttribute('transform')
    const turnedDeg = Number(/^rotate\((-?[\d.]+) /.exec(turn ?? '')?.[1])
    // 90° to the right of where a needle without declination would point.
    expect((turnedDeg + deg + 360) % 360).toBeCloseTo(90, 0)
    await place.getByRole('button', { name: 'Back to north up' }).click()
    await place.getByText('Arrows: north is up').waitFor()
  })

  it('copies its US National Grid reference with one tap, and says where the compass is denied', async () => {
    // With some permissions named the browser denies the others.
    const { page } = await openCrew(`&pole=${pole.id}`, {
      ...NO_LAND,
      permissions: ['clipboard-read', 'clipboard-write'],
    })
    await page.getByRole('button', { name: 'Copy US National Grid' }).click()
    await page.getByText('Copied').waitFor()
    const copied = await page.evaluate(() => navigator.clipboard.readText())
    expect(copied.replaceAll(' ', '')).toBe(mgrs.forward([...pole.at]))
    await page.getByRole('button', { name: 'Turn the arrows with me' }).click()
    await page.getByText('does not let this page read the compass').waitFor()
    await page.getByText('The arrows stay with north up').waitFor()
  })

  it('that is not there offers the way back; asked whether it is this pole, it points to the one that has what the crew sees', async () => {
    const model = modelFeeder(feeder)
    const hung = feeder.equipment.find(
      ({ kind, pole: at }) => kind === 'recloser' && model.downstreamOf.has(at),
    )
    const wanted = model.downstreamOf.get(hung?.pole ?? '')?.[0] ?? ''
    const { page } = await openCrew('&pole=NONE-1', { ...PHONE_OPTIONS, ...NO_LAND })
    await page.getByText('This feeder has no pole NONE-1').waitFor()
    await page.getByRole('button', { name: 'Back to the search' }).click()
    await search(page).fill(wanted)
    await rows(page).first().click()
    const check = page.getByRole('region', { name: 'Is this the pole?' })
    await check.getByRole('button', { name: 'Check by what you see' }).click()
    await check.getByText('2 answers, and this says').waitFor()
    const question = (words: string) => check.getByRole('group', { name: words })
    await question('a recloser').getByRole('button', { name: 'Yes' }).click()
    await question(`the tag ${hung?.pole} on`).getByRole('button', { name: 'No' }).click()
    await check.getByText(`Other pole likely: ${hung?.pole} (one up)`).waitFor()
    await check.getByRole('button', { name: `Open pole ${hung?.pole}` }).click()
    await page.getByRole('article', { name: `Pole ${hung?.pole}` }).waitFor()
  })

  it('tells access, kit, the voltage that the server computes and one safety caution, at 7:1 contrast, on phone and desktop', async () => {
    const equipped = feeder.equipment.find(({ kind }) => kind === 'recloser' || kind === 'switch')
    const id = equipped?.pole ?? pole.id
    const answer = await session.ask(`/api/feeders/${FEEDER}/voltage`, {
      method: 'POST',
      body: { taps: 'controlled' },
    })
    const { solutions } = (await answer.json()) as { solutions: CaseSolution[] }
    const first = solutions[0]
    if (first?.status !== 'converged') throw new Error('The demo does not solve.')
    const phases = Object.entries(first.nodes.find((node) => node.id === id)?.phases ?? {})
    expect(phases.length).toBeGreaterThan(0)
    for (const [name, options] of [
      ['phone', PHONE_OPTIONS],
      ['desktop', {}],
    ] as const) {
      const { page, complaints } = await openCrew(`&pole=${id}`, options)
      await page
        .getByRole('region', { name: 'Access' })
        .getByText(/Nearest (road|track)/)
        .waitFor()
      await page
        .getByRole('region', { name: 'What hangs on it' })
        .getByText(equipped?.id ?? '')
        .first()
        .waitFor()
      const voltage = page.getByRole('region', { name: 'Voltage' })
      await voltage.getByText('kV to ground').first().waitFor()
      for (const [phase, { volts120 }] of phases) {
        await voltage.getByText(`${phase} ${volts120.toFixed(1)} V on the 120 V base`).waitFor()
      }
      expect(await page.getByRole('complementary', { name: 'Safety' }).count()).toBe(1)
      await mapIsIdle(page)
      await keepPicture(page, `crew-pole-${name}`)
      expect(await seriousFindings(page)).toEqual([])
      expect(await lowContrast(page, '.crew')).toEqual([])
      expect(complaints).toEqual([])
    }
  })
})
