import { execFile, spawnSync } from 'node:child_process'
import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { promisify } from 'node:util'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { gpxOf, kmlOf, type Waypoint } from '#domain/jobs/waypoint-files.ts'

const run = promisify(execFile)
const hasOgrinfo = spawnSync('ogrinfo', ['--version']).status === 0
if (!hasOgrinfo) {
  if (process.env.CI) throw new Error('Reading waypoint files needs ogrinfo of gdal-bin.')
  console.warn('GPX and KML are not read by anything but ourselves here: install gdal-bin.')
}

/** Names and places that a careless writer stumbles over: markup, quotes, other scripts, small numbers. */
const POINTS: readonly Waypoint[] = [
  { name: 'W-742', at: [-107.1234567, 43.9876543], description: 'Pole W-742, Windmill' },
  {
    name: `<b>5 < 7 & 8 > "6"</b> 'x' ]]>`,
    at: [-0.0000001, -43.0000009],
    description: `gate <closed> & "locked", it's <!-- here -->`,
    elevationM: 1520.25,
  },
  {
    name: 'Mât 12 Überlandleitung 電柱 столб ⚡ 🦅',
    at: [179.9999999, 89.9999999],
    description: 'höchste Stelle – 標高',
    elevationM: -12.5,
  },
  { name: '&amp; &#38; %41', at: [12.5, 0], description: '\u0001control\uFFFE characters\u0000' },
]

interface ReadPoint {
  readonly name: string
  readonly description: string
  readonly lon: number
  readonly lat: number
  readonly elevationM: number | null
}

let folder = ''
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'waypoints-'))
})
afterAll(() => rm(folder, { recursive: true, force: true }))

/** Reads a file by GDAL's ogrinfo and takes its listing apart. */
async function readByOgrinfo(fileName: string, text: string, layer: string): Promise<ReadPoint[]> {
  const file = join(folder, fileName)
  await writeFile(file, text)
  const { stdout } = await run('ogrinfo', ['-ro', '-al', file, layer])
  expect(stdout).toContain('ID["EPSG",4326]')
  const features = stdout.split('OGRFeature(').slice(1)
  expect(stdout).toContain(`Feature Count: ${features.length}\n`)
  return features.map((feature) => {
    const field = (names: string) =>
      new RegExp(`^  (?:${names}) \\(String\\) = (.*)$`, 'm').exec(feature)?.[1] ?? ''
    const place = /POINT (?:Z )?\((\S+) (\S+)(?: (\S+))?\)/.exec(feature) ?? []
    const ele = place[3] ?? /ele \(Real\) = (\S+)/.exec(feature)?.[1]
    return {
      name: field('name|Name'),
      description: field('desc|description'),
      lon: Number(place[1]),
      lat: Number(place[2]),
      elevationM: ele === undefined ? null : Number(ele),
    }
  })
}

function expectAll(read: readonly ReadPoint[]): void {
  expect(read.map(({ name }) => name)).toEqual(POINTS.map(({ name }) => name))
  expect(read.map(({ description }) => description)).toEqual(
    POINTS.map(({ description }) => description.replaceAll(/\p{C}/gu, '')),
  )
  expect(read.map(({ elevationM }) => elevationM)).toEqual(
    POINTS.map(({ elevationM }) => elevationM ?? null),
  )
  for (const [index, { at }] of POINTS.entries()) {
    expect(Math.abs((read[index]?.lon ?? Number.NaN) - at[0])).toBeLessThan(5e-8)
    expect(Math.abs((read[index]?.lat ?? Number.NaN) - at[1])).toBeLessThan(5e-8)
  }
}

const ABOUT = { title: 'Poles of <Windmill> & “Thimble”', madeAt: '2026-05-04T12:30:00Z' }

describe.runIf(hasOgrinfo)('waypoints, as GDAL’s ogrinfo reads them', () => {
  it('are all there in GPX, with names, words and heights, at their places to 1e-7 degrees', async () => {
    expectAll(await readByOgrinfo('poles.gpx', gpxOf(POINTS, ABOUT), 'waypoints'))
  })

  it('are all there in KML, with names, words and heights, at their places to 1e-7 degrees', async () => {
    const layer = ABOUT.title
    expectAll(await readByOgrinfo('poles.kml', kmlOf(POINTS, ABOUT), layer))
  })

  it('carry the time that they were made', async () => {
    const gpx = join(folder, 'timed.gpx')
    await writeFile(gpx, gpxOf(POINTS.slice(0, 1), ABOUT))
    const { stdout } = await run('ogrinfo', ['-ro', '-al', gpx, 'waypoints'])
    expect(stdout).toContain('time (DateTime) = 2026/05/04 12:30:00+00')
  })

  it('of ten thousand poles are ten thousand', async () => {
    const many = Array.from({ length: 10_000 }, (_, index): Waypoint => {
      const at = [-107 + index * 1e-5, 43 + index * 1e-6] as const
      return { name: `W-${index}`, at: [at[0], at[1]], description: '' }
    })
    expect(await readByOgrinfo('many.gpx', gpxOf(many), 'waypoints')).toHaveLength(10_000)
  })
})

describe('a waypoint file', () => {
  it('writes no exponent, which XML decimals do not know', () => {
    const tiny: Waypoint = { name: 'tiny', at: [1e-7, -2e-7], description: '' }
    expect(gpxOf([tiny])).toContain('lat="-0.0000002" lon="0.0000001"')
    expect(kmlOf([tiny])).toContain('<coordinates>0.0000001,-0.0000002</coordinates>')
  })

  it('is not written for a place that is none', () => {
    expect(() => gpxOf([{ name: 'x', at: [Number.NaN, 0], description: '' }])).toThrow(
      'Expected a finite coordinate',
    )
  })
})
