import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'
import { readFeederFolder } from '../../../server/layer-files/feeder-folder.ts'

const folder = (name: string): string =>
  fileURLToPath(new URL(`../../../geodata/demo/${name}`, import.meta.url))

interface LandFile {
  readonly features: readonly {
    readonly properties: Readonly<Record<string, unknown>>
    readonly geometry: { readonly type: string; readonly coordinates: unknown }
  }[]
}

const land = (name: string): LandFile =>
  JSON.parse(readFileSync(`${folder('land')}/${name}.geojson`, 'utf8'))

describe('the folders of the demo', () => {
  it('are read without an error or a warning; the only notice is the open tie', async () => {
    const skillet = await readFeederFolder(folder('skillet'))
    const thimble = await readFeederFolder(folder('thimble'))
    expect(skillet.findings.map(({ code, severity }) => `${severity} ${code}`)).toEqual([
      'notice open-island',
    ])
    expect(thimble.findings).toEqual([])
  })

  it('hold one bank, two capacitor banks, a solar plant and an open tie with its transformer', async () => {
    const feeders = await Promise.all([
      readFeederFolder(folder('skillet')),
      readFeederFolder(folder('thimble')),
    ])
    const equipment = feeders.flatMap(({ feeder }) => feeder?.equipment ?? [])
    const count = (kind: string): number => equipment.filter((item) => item.kind === kind).length
    expect([count('regulator'), count('capacitor'), count('solar')]).toEqual([1, 2, 1])
    const open = equipment.filter((item) => 'state' in item && item.state === 'open')
    expect(open).toHaveLength(1)
    const tieSpan = open[0] && 'span' in open[0] ? open[0].span : undefined
    const onTie = equipment.filter((item) => 'span' in item && item.span === tieSpan)
    expect(onTie.map(({ kind }) => kind).sort()).toEqual(['switch', 'transformer'])
  })

  it('record spacing on every pole and directions to every pole with equipment in the line', async () => {
    const { feeder } = await readFeederFolder(folder('skillet'))
    const poles = feeder?.poles ?? []
    expect(
      poles.filter(({ phaseToGroundHorizontalM }) => phaseToGroundHorizontalM === undefined),
    ).toEqual([])
    const inLine = new Set(
      (feeder?.equipment ?? []).flatMap((item) => ('span' in item && item.span ? [item.pole] : [])),
    )
    expect(poles.filter(({ id, location }) => inLine.has(id) && !location)).toEqual([])
  })

  it('have nest seasons of which one runs over New Year, each with its source', async () => {
    const { feeder } = await readFeederFolder(folder('skillet'))
    const nests = feeder?.nests ?? []
    expect(
      nests.filter(({ seasonFrom, seasonTo }) => seasonFrom > seasonTo).length,
    ).toBeGreaterThan(0)
    expect(nests.every(({ citation }) => (citation ?? '').length > 20)).toBe(true)
  })

  it('lie on land whose polygons are closed and run counter-clockwise (RFC 7946, 3.1.6)', () => {
    const rings = ['ground', 'buildings', 'water'].flatMap((name) =>
      land(name)
        .features.filter(({ geometry }) => geometry.type === 'Polygon')
        .map(({ geometry }) => (geometry.coordinates as [number, number][][])[0] ?? []),
    )
    expect(rings.length).toBeGreaterThan(500)
    expect(rings.filter((ring) => String(ring[0]) !== String(ring.at(-1)))).toEqual([])
    expect(rings.filter((ring) => signedArea(ring) <= 0)).toEqual([])
  })

  it('have contours every 20 m with every fifth marked as index', () => {
    for (const { properties } of land('contours').features) {
      const height = Number(properties.height_m)
      expect(height % 20).toBe(0)
      expect(properties.is_index).toBe(height % 100 === 0)
    }
  })
})

/** Twice the area by the shoelace rule; positive for a counter-clockwise ring. */
function signedArea(ring: readonly (readonly [number, number])[]): number {
  return ring.reduce((sum, [x, y], i) => {
    const [nextX, nextY] = ring[(i + 1) % ring.length] ?? [x, y]
    return sum + (x * nextY - nextX * y)
  }, 0)
}
