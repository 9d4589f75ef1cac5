/** Layers of a small sound feeder in the spelling of the files; tests break copies of it. */
type Properties = Record<string, unknown>

export interface FeatureInput {
  readonly geometry: unknown
  readonly properties: Properties
}

const LON = -107.5
const LAT = 42.5

const position = (index: number): [number, number] => [LON + index * 0.001, LAT]
export const pointAt = (index: number) => ({ type: 'Point', coordinates: position(index) })
const lineBetween = (from: number, to: number) => ({
  type: 'LineString',
  coordinates: [position(from), position(to)],
})

export function collection(features: readonly FeatureInput[]): unknown {
  return {
    type: 'FeatureCollection',
    features: features.map((feature) => ({ type: 'Feature', ...feature })),
  }
}

export const header = (changes: Properties = {}): Properties => ({
  format: 'crossarm-feeder-1',
  id: 'small',
  name: 'Small feeder',
  nominal_kv: 12.47,
  source: { pole: 'P1' },
  line_types: [
    {
      id: 'three-phase',
      name: 'Three-phase',
      kind: 'matrix',
      z_ohm_per_km: { AA: [0.4, 0.8], BB: [0.4, 0.8], CC: [0.4, 0.8], AB: [0.1, 0.3] },
      b_microsiemens_per_km: { AA: 3.5, AB: -1.2 },
    },
  ],
  cases: [{ id: 'peak', name: 'Peak', class_factors: { farmPump: 1.4, A: 0.5, load_factor: 2 } }],
  ...changes,
})

export const poles = (): FeatureInput[] =>
  ['P1', 'P2', 'P3'].map((id, index) => ({ geometry: pointAt(index), properties: { id } }))

export const spans = (): FeatureInput[] => [
  {
    geometry: lineBetween(0, 1),
    properties: { id: 'S1', from: 'P1', to: 'P2', phases: 'ABC', line_type: 'three-phase' },
  },
  {
    geometry: lineBetween(1, 2),
    properties: { id: 'S2', from: 'P2', to: 'P3', phases: 'ABC', line_type: 'three-phase' },
  },
]

export const regulator = (changes: Properties = {}): FeatureInput => ({
  geometry: pointAt(1),
  properties: {
    id: 'R1',
    kind: 'regulator',
    pole: 'P2',
    span: 'S2',
    phases: 'ABC',
    winding_type: 'B',
    pt_ratio: 60,
    ct_primary_a: 200,
    band_centre_v: 122,
    bandwidth_v: 2,
    ...changes,
  },
})

export const load = (changes: Properties = {}): FeatureInput => ({
  geometry: pointAt(2),
  properties: { id: 'L1', pole: 'P3', kw_a: 20, kvar_a: 5, customers: 3, ...changes },
})

export interface Changes {
  readonly header?: unknown
  readonly poles?: readonly FeatureInput[]
  readonly spans?: readonly FeatureInput[]
  readonly equipment?: readonly FeatureInput[]
  readonly loads?: readonly FeatureInput[]
}

/** The layers by file name, with some of them replaced. */
export function smallLayers(changes: Changes = {}): Record<string, unknown> {
  return {
    'feeder.json': 'header' in changes ? changes.header : header(),
    'poles.geojson': collection(changes.poles ?? poles()),
    'spans.geojson': collection(changes.spans ?? spans()),
    'equipment.geojson': collection(changes.equipment ?? [regulator()]),
    'loads.geojson': collection(changes.loads ?? [load()]),
  }
}
