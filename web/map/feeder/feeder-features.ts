import type { Feature, FeatureCollection, LineString, Point } from 'geojson'
import type { Equipment } from '#domain/feeder/equipment.ts'
import type { Position } from '#domain/feeder/geometry.ts'
import { isBypassed } from '#domain/feeder/is-bypassed.ts'
import { isOpen, seriesEquipmentBySpan } from '#domain/network/series-equipment.ts'
import type { FeederModel } from '../../state/feeder-model.ts'
import { bearingDeg, lineDirectionDeg, uprightTurnDeg } from './line-bearing.ts'
import type { SymbolName } from './symbols.ts'

export interface SpanProperties {
  readonly id: string
  readonly from: string
  readonly to: string
  readonly isOpen: boolean
}

export interface PoleProperties {
  readonly id: string
  readonly symbol: SymbolName
  readonly turnDeg: number
}

export interface EquipmentProperties {
  readonly id: string
  readonly pole: string
  readonly symbol: SymbolName
  readonly name: string
  readonly turnDeg: number
  /** Across the line, in pixels of the symbol, so that neighbours on one pole stand side by side. */
  readonly offset: [number, number]
  /** Lower is drawn first and pushes others away. */
  readonly rank: number
  /** Shown from far, since it decides the voltage or who is fed. */
  readonly isMain: boolean
}

type Collection<Shape extends Point | LineString, Properties> = FeatureCollection<Shape, Properties>

export function spanFeatures({ feeder }: FeederModel): Collection<LineString, SpanProperties> {
  const devices = seriesEquipmentBySpan(feeder)
  return collection(
    feeder.spans.map((span) => ({
      type: 'Feature',
      geometry: { type: 'LineString', coordinates: span.path },
      properties: {
        id: span.id,
        from: span.from,
        to: span.to,
        isOpen: isOpen(span, devices.get(span.id) ?? []),
      },
    })),
  )
}

export function poleFeatures(model: FeederModel): Collection<Point, PoleProperties> {
  const turns = turnsOfPoles(model)
  const phases = mostPhases(model)
  return collection(
    model.feeder.poles.map(({ id, at }) =>
      pointFeature(at, {
        id,
        symbol: armSymbol(phases.get(id) ?? 1, turns.get(id)?.spanCount === 1),
        turnDeg: turns.get(id)?.turnDeg ?? 0,
      }),
    ),
  )
}

function armSymbol(phaseCount: number, isEnd: boolean): SymbolName {
  if (phaseCount === 1) return 'pole-one'
  return isEnd ? 'pole-end' : 'pole-arm'
}

function mostPhases({ feeder }: FeederModel): Map<string, number> {
  const most = new Map<string, number>()
  for (const { from, to, phases } of feeder.spans) {
    for (const pole of [from, to]) {
      most.set(pole, Math.max(most.get(pole) ?? 0, phases.length))
    }
  }
  return most
}

interface Turn {
  readonly turnDeg: number
  readonly spanCount: number
}

/** The heaviest line through the pole gives the direction: a tap does not turn the arm. */
function turnsOfPoles({ feeder }: FeederModel): Map<string, Turn> {
  const spansAt = new Map<string, { bearing: number; phaseCount: number }[]>()
  for (const { path, from, to, phases } of feeder.spans) {
    const [start, second] = path
    const [beforeEnd, end] = path.slice(-2)
    if (!start || !second || !beforeEnd || !end) continue
    const ends = [
      [from, bearingDeg(start, second)],
      [to, bearingDeg(beforeEnd, end)],
    ] as const
    for (const [pole, bearing] of ends) {
      const found = spansAt.get(pole) ?? []
      spansAt.set(pole, [...found, { bearing, phaseCount: phases.length }])
    }
  }
  return new Map(
    [...spansAt].map(([pole, spans]) => {
      const most = Math.max(...spans.map(({ phaseCount }) => phaseCount))
      const heaviest = spans.filter(({ phaseCount }) => phaseCount === most)
      const direction = lineDirectionDeg(heaviest.map(({ bearing }) => bearing))
      return [pole, { turnDeg: uprightTurnDeg(direction), spanCount: spans.length }]
    }),
  )
}

const RANKS: Readonly<Record<Equipment['kind'], number>> = {
  regulator: 1,
  solar: 2,
  generator: 2,
  capacitor: 3,
  recloser: 4,
  switch: 5,
  fuse: 7,
  transformer: 8,
  cutout: 9,
  arrester: 9,
  riser: 9,
  meter: 9,
  guy: 10,
}
const SOURCE_RANK = 0
const LAST_MAIN_RANK = 5
/** From the pole to its first symbol, and from one symbol to the next, pixels. */
const FIRST_PX = 19
const STEP_PX = 24

/** Equipment, the source, and loads at poles that carry no transformer to stand for them. */
export function equipmentFeatures(model: FeederModel): Collection<Point, EquipmentProperties> {
  const turns = turnsOfPoles(model)
  return collection(
    model.feeder.poles.flatMap(({ id, at }) =>
      itemsAt(model, id).map((item, index) =>
        pointFeature(at, {
          ...item,
          pole: id,
          turnDeg: turns.get(id)?.turnDeg ?? 0,
          offset: [0, -FIRST_PX - index * STEP_PX],
          isMain: item.rank <= LAST_MAIN_RANK,
        }),
      ),
    ),
  )
}

type Item = Pick<EquipmentProperties, 'id' | 'symbol' | 'name' | 'rank'>

function itemsAt({ feeder, equipmentAt, loadsAt }: FeederModel, pole: string): Item[] {
  const items: Item[] = (equipmentAt.get(pole) ?? []).map((item) => ({
    id: item.id,
    symbol: symbolOf(item),
    name: item.name ?? '',
    rank: RANKS[item.kind],
  }))
  if (feeder.header.source.pole === pole) {
    items.push({ id: `${pole}:source`, symbol: 'source', name: 'Source', rank: SOURCE_RANK })
  }
  const hasTransformer = items.some(({ symbol }) => symbol === 'transformer')
  if (!hasTransformer && loadsAt.has(pole)) {
    items.push({ id: `${pole}:load`, symbol: 'load', name: 'Load', rank: 8 })
  }
  return items.sort((a, b) => a.rank - b.rank)
}

function symbolOf(item: Equipment): SymbolName {
  if (isBypassed(item)) return 'regulator-bypassed'
  if (item.kind === 'switch' && item.state === 'open') return 'switch-open'
  return item.kind
}

function pointFeature<Properties>(
  at: Position,
  properties: Properties,
): Feature<Point, Properties> {
  return { type: 'Feature', geometry: { type: 'Point', coordinates: at }, properties }
}

function collection<Shape extends Point | LineString, Properties>(
  features: Feature<Shape, Properties>[],
): Collection<Shape, Properties> {
  return { type: 'FeatureCollection', features }
}
