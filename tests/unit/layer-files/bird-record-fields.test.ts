import { describe, expect, it } from 'vitest'
import { feederOfLayers } from '../../../server/layer-files/feeder-folder.ts'
import { layersOfFeeder } from '../../../server/layer-files/layers-of-feeder.ts'
import { collection, pointAt, smallLayers } from './small-layers.ts'

const COVER = {
  id: 'item-1',
  pole: 'P2',
  kind: 'cover',
  what: 'bushing cover, A and B phases',
  state: 'on',
  on: '2021-04-10',
  measure: 'bushing cover',
  part_ids: ['T1-A-bushing', 'T1-B-bushing'],
  material_class: '25 kV, polymer',
  installed_by: 'line crew 1',
  cost_usd: 340,
  inspect_every_months: 36,
  condition: 'slipped',
  inspected_on: '2026-05-02',
}

const LONGER_ARM = {
  id: 'item-2',
  pole: 'P2',
  kind: 'change of the framing',
  what: '10 ft arm in place of an 8 ft arm',
  state: 'on',
  on: '2024-09-01',
  measure: 'longer arm',
  dimension_m: 1.42,
}

const FIND = {
  id: 'find-1',
  pole: 'P2',
  found_on: '2026-09-02',
  species: 'golden eagle',
  cause: 'probable electrocution',
  found_at: '08:40',
  suspected_part_a: 'T1-A-bushing',
  suspected_part_b: 'T1-A-tank',
  agency: 'state wildlife agency',
  agency_told_on: '2026-09-02',
  fix_due_on: '2026-10-02',
}

const layers = {
  ...smallLayers(),
  'covers.geojson': collection([
    { geometry: pointAt(1), properties: COVER },
    { geometry: pointAt(1), properties: LONGER_ARM },
  ]),
  'incidents.geojson': collection([{ geometry: pointAt(1), properties: FIND }]),
}

describe('what is recorded of covers and finds', () => {
  const { feeder, findings } = feederOfLayers(layers)

  it('is read whole, lists of parts and dates of inspection as well', () => {
    expect(findings).toEqual([])
    expect(feeder?.protections[0]).toMatchObject({
      partIds: ['T1-A-bushing', 'T1-B-bushing'],
      inspectEveryMonths: 36,
      condition: 'slipped',
    })
    expect(feeder?.protections[1]?.dimensionM).toBe(1.42)
    expect(feeder?.incidents[0]).toMatchObject({ suspectedPartB: 'T1-A-tank', foundAt: '08:40' })
  })

  it('is written as it was read', () => {
    const written = feeder ? layersOfFeeder(feeder) : {}
    expect(written['covers.geojson']).toEqual(layers['covers.geojson'])
    expect(written['incidents.geojson']).toEqual(layers['incidents.geojson'])
  })

  it('is refused with the place of the fault where a condition is no such word', () => {
    const broken = {
      ...layers,
      'covers.geojson': collection([
        { geometry: pointAt(1), properties: { ...COVER, condition: 'so so', part_ids: [3] } },
      ]),
    }
    const said = feederOfLayers(broken).findings.map(({ what }) => what)
    expect(said.some((what) => what.includes('condition is "so so"'))).toBe(true)
    expect(said.some((what) => what.includes('part_ids[0] is 3'))).toBe(true)
  })
})
