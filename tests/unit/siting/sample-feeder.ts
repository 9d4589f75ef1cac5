import type { Equipment } from '#domain/feeder/equipment.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import type { Position } from '#domain/feeder/geometry.ts'
import { LoadCase } from '#domain/feeder/header.ts'
import { Load } from '#domain/feeder/load.ts'
import { Pole } from '#domain/feeder/pole.ts'
import { Span } from '#domain/feeder/span.ts'
import type { PhaseSet } from '#domain/units/phases.ts'

/** One degree of latitude on the sphere that the project measures with, metres. */
const M_PER_DEGREE = (6_371_008.8 * Math.PI) / 180

/** A place so many metres east and north of a corner on the equator. */
export function placeAt(eastM: number, northM: number): Position {
  return [eastM / M_PER_DEGREE, northM / M_PER_DEGREE]
}

export interface SampleSpan {
  readonly from: string
  readonly to: string
  readonly phases?: PhaseSet
  readonly lengthM?: number
}

export interface SampleParts {
  readonly poles: readonly (Partial<Pole> & { id: string; at: Position })[]
  readonly spans: readonly SampleSpan[]
  readonly loads?: readonly (Partial<Load> & { id: string })[]
  readonly cases?: readonly (Partial<LoadCase> & { id: string })[]
  readonly equipment?: readonly Equipment[]
  readonly nominalKv?: number
  readonly sourcePu?: number
  readonly ohmPerKm?: readonly [number, number]
}

/** A feeder of decoupled phases, the first pole its source, each span named `from:to`. */
export function sampleFeeder(parts: SampleParts): Feeder {
  const places = new Map(parts.poles.map((pole) => [pole.id, pole.at]))
  const [r, x] = parts.ohmPerKm ?? [0.2, 0.4]
  return {
    header: {
      format: 'crossarm-feeder-1',
      id: 'sample',
      name: 'Sample',
      nominalKv: parts.nominalKv ?? 12.47,
      source: { pole: parts.poles[0]?.id ?? '', voltagePu: parts.sourcePu ?? 1.05, angleDeg: 0 },
      lineTypes: [
        {
          kind: 'matrix',
          id: 'line',
          name: 'Line',
          zOhmPerKm: { AA: [r, x], BB: [r, x], CC: [r, x] },
        },
      ],
      cases: (parts.cases ?? [{ id: 'peak' }]).map((loadCase) =>
        LoadCase.parse({ name: loadCase.id, hoursPerYear: 1000, ...loadCase }),
      ),
      limits: { lowVolts120: 118, highVolts120: 126 },
      growthPctPerYear: 0,
      coordinates: 'invented',
    },
    poles: parts.poles.map((pole) => Pole.parse(pole)),
    spans: parts.spans.map(({ from, to, phases = 'ABC', lengthM }) =>
      Span.parse({
        id: `${from}:${to}`,
        path: [places.get(from), places.get(to)],
        from,
        to,
        phases,
        lineType: 'line',
        lengthM,
      }),
    ),
    equipment: [...(parts.equipment ?? [])],
    loads: (parts.loads ?? []).map((load) => Load.parse(load)),
    nests: [],
    habitat: [],
    incidents: [],
    protections: [],
    access: [],
    keepOuts: [],
  }
}

/** Poles p0, p1, … in a straight line to the east, with a span between neighbours. */
export function straightLine(count: number, spacingM: number) {
  const poles = Array.from({ length: count }, (_, i) => ({
    id: `p${i}`,
    at: placeAt(i * spacingM, 0),
  }))
  const spans = poles.slice(1).map((pole, i) => ({ from: `p${i}`, to: pole.id }))
  return { poles, spans }
}
