import { beforeAll, describe, expect, it } from 'vitest'
import { readDemoFeeder } from '../support/demo-feeder.ts'
import { buildCli, runCli } from './run-cli.ts'

const DEMO = 'geodata/demo/thimble'
const feeder = await readDemoFeeder('thimble')
const [first, second] = feeder.poles.filter(({ isAnonymousNode }) => !isAnonymousNode)
if (!first || !second) throw new Error('The demo feeder has no poles.')

beforeAll(buildCli, 120_000)

describe('crossarm waypoints', () => {
  it('writes the poles that are asked for as GPX, at their places', async () => {
    const { code, out, err } = await runCli(
      'waypoints',
      DEMO,
      '--poles',
      `${second.id}, ${first.id}`,
    )
    expect({ code, err }).toEqual({ code: 0, err: '' })
    expect(out).toMatch(/^<\?xml version="1\.0" encoding="UTF-8"\?>\n<gpx version="1\.1"/)
    const names = [...out.matchAll(/<name>([^<]*)<\/name><desc>/g)].map(([, name]) => name)
    expect(names).toEqual([second.id, first.id])
    const [lon, lat] = second.at
    const [, readLat, readLon] = /<wpt lat="(\S+)" lon="(\S+)">/.exec(out) ?? []
    expect(Number(readLat)).toBeCloseTo(lat, 8)
    expect(Number(readLon)).toBeCloseTo(lon, 8)
  })

  it('writes every pole of the feeder as KML where none is named', async () => {
    const { code, out } = await runCli('waypoints', DEMO, '--as', 'kml')
    expect(code).toBe(0)
    expect(out).toContain('<kml xmlns="http://www.opengis.net/kml/2.2">')
    const real = feeder.poles.filter(({ isAnonymousNode }) => !isAnonymousNode)
    expect(out.match(/<Placemark>/g)).toHaveLength(real.length)
  })

  it.each([
    ['a pole that there is not', ['--poles', 'nowhere'], 'has no pole nowhere.'],
    ['no pole', ['--poles', ' , '], '--poles takes ids of poles'],
    ['another form', ['--as', 'shp'], '--as takes gpx or kml, not "shp".'],
  ])('(%s) ends with 2 and says why', async (_what, options, why) => {
    const { code, out, err } = await runCli('waypoints', DEMO, ...options)
    expect({ code, out }).toEqual({ code: 2, out: '' })
    expect(err).toContain(why)
  })
})
