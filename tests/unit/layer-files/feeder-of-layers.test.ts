import { describe, expect, it } from 'vitest'
import type { Finding } from '#domain/feeder/finding.ts'
import { feederOfLayers } from '../../../server/layer-files/feeder-folder.ts'
import { layersOfFeeder } from '../../../server/layer-files/layers-of-feeder.ts'
import {
  type Changes,
  collection,
  header,
  load,
  pointAt,
  poles,
  regulator,
  smallLayers,
  spans,
} from './small-layers.ts'

const read = (changes: Changes) => feederOfLayers(smallLayers(changes))

/** Findings in short: severity, code, layer and feature. */
const inShort = (findings: readonly Finding[]) =>
  findings.map(({ severity, code, layer, featureId }) => [severity, code, layer, featureId])

/** Lists in lists, so many of them. */
function nested(levels: number): unknown[] {
  let inner: unknown[] = []
  for (let level = 1; level < levels; level++) inner = [inner]
  return inner
}

const replaced = <Item>(items: readonly Item[], index: number, item: Item): Item[] =>
  items.map((each, at) => (at === index ? item : each))

describe('reading sound layers', () => {
  const { feeder, findings } = read({})

  it('gives a feeder without findings', () => {
    expect(findings).toEqual([])
    expect(feeder?.poles.map(({ id, at }) => [id, at])).toContainEqual(['P1', [-107.5, 42.5]])
  })

  it('takes the spelling of the files and fills in what was left out', () => {
    expect(feeder?.header.nominalKv).toBe(12.47)
    expect(feeder?.header.source).toEqual({ pole: 'P1', voltagePu: 1, angleDeg: 0 })
    expect(feeder?.equipment[0]).toMatchObject({ windingType: 'B', ctPrimaryA: 200, maxRaise: 16 })
    expect(feeder?.loads[0]).toMatchObject({
      kwA: 20,
      kwB: 0,
      kvarA: 5,
      customerClass: 'residential',
    })
  })

  it('leaves customer classes and phase names as they were written', () => {
    expect(feeder?.header.cases[0]?.classFactors).toEqual({ farmPump: 1.4, A: 0.5, load_factor: 2 })
    const [lineType] = feeder?.header.lineTypes ?? []
    expect(lineType).toMatchObject({ zOhmPerKm: { AB: [0.1, 0.3] } })
  })

  it('gives the same feeder again when written and read', () => {
    if (!feeder) throw new Error('Expected a feeder.')
    expect(feederOfLayers(layersOfFeeder(feeder))).toEqual({ feeder, findings: [] })
  })

  it('writes customer classes and phase names back as they were', () => {
    if (!feeder) throw new Error('Expected a feeder.')
    expect(layersOfFeeder(feeder)['feeder.json']).toMatchObject({
      cases: [{ class_factors: { farmPump: 1.4, A: 0.5, load_factor: 2 } }],
      line_types: [{ z_ohm_per_km: { AB: [0.1, 0.3] }, b_microsiemens_per_km: { AA: 3.5 } }],
    })
  })
})

describe('what is wrong in the layers', () => {
  const cases: readonly (readonly [title: string, changes: Changes, expected: unknown[]])[] = [
    [
      'a pole without its id',
      { poles: [...poles(), { geometry: pointAt(3), properties: {} }] },
      ['error', 'invalid-property', 'poles', '#4'],
    ],
    [
      'a pole drawn as a line',
      { poles: [...poles(), { geometry: spans()[0]?.geometry, properties: { id: 'P4' } }] },
      ['error', 'wrong-geometry', 'poles', 'P4'],
    ],
    [
      'coordinates nested without end',
      {
        poles: [
          ...poles(),
          {
            geometry: { type: 'Point', coordinates: nested(50_000) },
            properties: { id: 'P4' },
          },
        ],
      },
      ['error', 'invalid-property', 'poles', 'P4'],
    ],
    [
      'a longitude beyond the earth',
      {
        poles: [
          ...poles(),
          { geometry: { type: 'Point', coordinates: [200, 42] }, properties: { id: 'P4' } },
        ],
      },
      ['error', 'invalid-property', 'poles', 'P4'],
    ],
    [
      'an id that stands twice',
      { poles: [...poles(), { geometry: pointAt(0), properties: { id: 'P1' } }] },
      ['error', 'duplicate-id', 'poles', 'P1'],
    ],
    [
      'a span to a pole that is not there',
      {
        spans: replaced(spans(), 1, {
          ...spans()[1]!,
          properties: { ...spans()[1]!.properties, to: 'P9' },
        }),
      },
      ['error', 'no-such-pole', 'spans', 'S2'],
    ],
    [
      'a line type that the header does not hold',
      {
        spans: replaced(spans(), 0, {
          ...spans()[0]!,
          properties: { ...spans()[0]!.properties, line_type: 'copper' },
        }),
      },
      ['error', 'no-such-line-type', 'spans', 'S1'],
    ],
    [
      'a jumper that has a length',
      {
        spans: replaced(spans(), 1, {
          ...spans()[1]!,
          properties: { id: 'S2', from: 'P2', to: 'P3', phases: 'ABC', length_m: 12 },
        }),
      },
      ['error', 'jumper-with-length', 'spans', 'S2'],
    ],
    [
      'a regulator on a span that starts elsewhere',
      { equipment: [regulator({ span: 'S1' })] },
      ['error', 'not-at-near-end', 'equipment', 'R1'],
    ],
    [
      'a kind of equipment that there is not',
      { equipment: [regulator({ kind: 'balloon' })] },
      ['error', 'invalid-property', 'equipment', 'R1'],
    ],
    [
      'a regulator drawn far from its pole',
      { equipment: [{ ...regulator(), geometry: pointAt(4) }] },
      ['error', 'drawn-off-place', 'equipment', 'R1'],
    ],
    [
      'a load that names neither pole nor span',
      { loads: [{ geometry: null, properties: { id: 'L1', kw_a: 3 } }] },
      ['error', 'invalid-property', 'loads', 'L1'],
    ],
    [
      'a low limit above the high one',
      { header: header({ limits: { low_volts120: 127, high_volts120: 126 } }) },
      ['error', 'limits-reversed', 'feeder', 'small'],
    ],
    [
      'a conductor that is not in the table',
      {
        header: header({
          line_types: [
            ...(header().line_types as unknown[]),
            {
              id: 'odd',
              name: 'Odd',
              kind: 'geometry',
              positions: [{ role: 'A', x_m: 0, height_m: 9, conductor: '4/0 fence wire' }],
            },
          ],
        }),
      },
      ['error', 'no-such-conductor', 'feeder', 'small'],
    ],
  ]

  it.each(cases)('refuses %s, by name', (_title, changes, expected) => {
    const { feeder, findings } = read(changes)
    expect(feeder).toBeNull()
    expect(inShort(findings)).toEqual([expected])
  })

  it.each(cases)('says what to do about %s', (_title, changes) => {
    for (const { what, remedy } of read(changes).findings) {
      expect(what).toMatch(/^\p{Lu}.*\.$/u)
      expect(remedy).toMatch(/^\p{Lu}.*\.$/u)
    }
  })

  it('warns of a property that it does not know, and names the one that was meant', () => {
    const { feeder, findings } = read({ loads: [load({ kwB: 4, colour: 'blue' })] })
    expect(feeder?.loads[0]?.kwB).toBe(0)
    expect(inShort(findings)).toEqual([
      ['warning', 'unknown-property', 'loads', 'L1'],
      ['warning', 'unknown-property', 'loads', 'L1'],
    ])
    expect(findings[0]?.what).toContain('kwB')
    expect(findings[0]?.remedy).toBe('Write it as kw_b.')
  })

  it('warns of equipment drawn a little beside its pole and still reads it', () => {
    const beside = { type: 'Point', coordinates: [-107.4987, 42.5] }
    const { feeder, findings } = read({ equipment: [{ ...regulator(), geometry: beside }] })
    expect(feeder).not.toBeNull()
    expect(inShort(findings)).toEqual([['warning', 'drawn-off-place', 'equipment', 'R1']])
  })

  it('warns of a recorded length that the drawing cannot have', () => {
    const [first, second] = spans()
    const long = { ...second!, properties: { ...second!.properties, length_m: 900 } }
    const { feeder, findings } = read({ spans: [first!, long] })
    expect(feeder?.spans[1]?.lengthM).toBe(900)
    expect(inShort(findings)).toEqual([['warning', 'length-differs', 'spans', 'S2']])
  })

  it('says that altitudes are left out', () => {
    const high = { type: 'Point', coordinates: [-107.5, 42.5, 2010] }
    const { feeder, findings } = read({
      poles: replaced(poles(), 0, { geometry: high, properties: { id: 'P1' } }),
    })
    expect(feeder?.poles[0]?.at).toEqual([-107.5, 42.5])
    expect(inShort(findings)).toEqual([['notice', 'altitude-left-out', 'poles', null]])
  })

  it('names every problem at once', () => {
    const { findings } = read({
      header: header({ limits: { low_volts120: 127, high_volts120: 126 } }),
      poles: [...poles(), { geometry: pointAt(0), properties: { id: 'P1' } }],
      equipment: [regulator({ span: 'S9', pt_ratio: -1 })],
      loads: [load({ pole: 'P8' }), load({ id: 'L2', constant_power: 0.5 })],
    })
    expect(inShort(findings)).toEqual([
      ['error', 'invalid-property', 'equipment', 'R1'],
      ['error', 'invalid-property', 'loads', 'L2'],
      ['error', 'duplicate-id', 'poles', 'P1'],
      ['error', 'no-such-pole', 'loads', 'L1'],
      ['error', 'limits-reversed', 'feeder', 'small'],
    ])
  })

  it('names one broken pole once, and not every span that ends there', () => {
    const broken = { geometry: pointAt(1), properties: { id: 'P2', height_m: 'tall' } }
    const { findings } = read({ poles: replaced(poles(), 1, broken) })
    expect(inShort(findings)).toEqual([['error', 'invalid-property', 'poles', 'P2']])
    expect(findings[0]?.what).toBe(
      'The property height_m is "tall": expected number, received string.',
    )
  })

  it('reports how the line hangs together once the records are sound', () => {
    const { feeder, findings } = read({
      spans: [
        ...spans(),
        {
          geometry: {
            type: 'LineString',
            coordinates: [pointAt(2).coordinates, pointAt(0).coordinates],
          },
          properties: { id: 'S3', from: 'P3', to: 'P1', phases: 'ABC', line_type: 'three-phase' },
        },
      ],
    })
    expect(feeder).toBeNull()
    expect(findings.map(({ code }) => code)).toContain('loop')
  })

  it('asks for the three layers that a feeder cannot do without', () => {
    const { feeder, findings } = feederOfLayers({})
    expect(feeder).toBeNull()
    expect(inShort(findings)).toEqual([
      ['error', 'missing-file', 'feeder', null],
      ['error', 'missing-file', 'poles', null],
      ['error', 'missing-file', 'spans', null],
    ])
  })

  it('does not call every reference broken when the poles cannot be read', () => {
    const layers = { ...smallLayers(), 'poles.geojson': { type: 'Topology' } }
    expect(inShort(feederOfLayers(layers).findings)).toEqual([
      ['error', 'not-a-feature-collection', 'poles', null],
    ])
  })

  it('refuses a feature that is none', () => {
    const layers = {
      ...smallLayers(),
      'loads.geojson': { ...(collection([]) as object), features: [7] },
    }
    expect(inShort(feederOfLayers(layers).findings)).toEqual([
      ['error', 'not-a-feature', 'loads', '#1'],
    ])
  })
})

describe('a bank in the layer of equipment', () => {
  const standing = {
    state: 'bypassed',
    neutral_side: 'switched',
    serial_a: 'N 4417',
    serial_b: 'N 4418',
    serial_c: 'N 4419',
  }
  const propertiesOf = (layers: Record<string, unknown>) => {
    const { features } = layers['equipment.geojson'] as {
      features: { properties: Record<string, unknown> }[]
    }
    return features[0]?.properties
  }

  it('says how it stands, of its neutral side and the serial numbers of its units', () => {
    const { feeder, findings } = read({ equipment: [regulator(standing)] })
    expect(feeder?.equipment[0]).toMatchObject({
      state: 'bypassed',
      neutralSide: 'switched',
      serialA: 'N 4417',
      serialB: 'N 4418',
      serialC: 'N 4419',
    })
    expect(inShort(findings)).toEqual([['notice', 'bank-bypassed', 'equipment', 'R1']])
  })

  it('is written as it was read, and says nothing of what it did not say', () => {
    for (const said of [standing, { state: 'in service' }, {}]) {
      const { feeder } = read({ equipment: [regulator(said)] })
      if (!feeder) throw new Error('Expected a feeder.')
      const written = layersOfFeeder(feeder)
      expect(propertiesOf(written)).toEqual(regulator(said).properties)
      expect(feederOfLayers(written).feeder).toEqual(feeder)
    }
  })

  it.each([
    [{ state: 'out' }, 'The property state is "out"'],
    [{ neutral_side: 'open' }, 'The property neutral_side is "open"'],
    [{ serial_b: '' }, 'The property serial_b is ""'],
    [{ serial_c: 4419 }, 'The property serial_c is 4419'],
  ])('is refused with what it says wrong: %o', (wrong, what) => {
    const { feeder, findings } = read({ equipment: [regulator(wrong)] })
    expect(feeder).toBeNull()
    expect(inShort(findings)).toEqual([['error', 'invalid-property', 'equipment', 'R1']])
    expect(findings[0]?.what).toContain(what)
    expect(findings[0]?.place).toEqual([-107.499, 42.5])
    expect(findings[0]?.remedy).toContain('geodata/schema/equipment.schema.json')
  })

  it('is warned of a spelling that is not the format’s, with the right one', () => {
    const { findings } = read({ equipment: [regulator({ neutralSide: 'switched' })] })
    expect(inShort(findings)).toEqual([['warning', 'unknown-property', 'equipment', 'R1']])
    expect(findings[0]?.remedy).toBe('Write it as neutral_side.')
  })
})
