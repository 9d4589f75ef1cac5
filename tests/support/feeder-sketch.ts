import type { z } from 'zod'
import { Feeder } from '#domain/feeder/feeder.ts'

type Input = z.input<typeof Feeder>

export interface FeederSketch {
  readonly nominalKv?: number
  readonly source?: Partial<Input['header']['source']>
  readonly lineTypes?: Input['header']['lineTypes']
  readonly cases?: Input['header']['cases']
  /** Poles are made from the ends of the spans; `path` may be left out. */
  readonly spans: readonly (Omit<Input['spans'][number], 'path'> & {
    path?: Input['spans'][number]['path']
  })[]
  readonly equipment?: Input['equipment']
  readonly loads?: Input['loads']
}

/** A feeder for tests from its spans, with one case at recorded loads and its source at the first span. */
export function feederSketch(sketch: FeederSketch): Feeder {
  const ids = [...new Set(sketch.spans.flatMap(({ from, to }) => [from, to]))]
  return Feeder.parse({
    header: {
      format: 'crossarm-feeder-1',
      id: 'sketch',
      name: 'Sketch',
      nominalKv: sketch.nominalKv ?? 12.47,
      source: { pole: ids[0] ?? '', ...sketch.source },
      lineTypes: sketch.lineTypes ?? [],
      cases: sketch.cases ?? [{ id: 'peak', name: 'Peak' }],
      coordinates: 'invented',
    },
    poles: ids.map((id, index) => ({ id, at: [-107 + index * 0.001, 43] })),
    spans: sketch.spans.map((span) => ({
      path: [
        [-107 + ids.indexOf(span.from) * 0.001, 43],
        [-107 + ids.indexOf(span.to) * 0.001, 43],
      ],
      ...span,
    })),
    equipment: sketch.equipment ?? [],
    loads: sketch.loads ?? [],
    nests: [],
    habitat: [],
    incidents: [],
    protections: [],
    access: [],
    keepOuts: [],
  })
}

/** Uncoupled line type with the same impedance in every phase, ohm/km. */
export function plainLineType(id: string, rOhmPerKm: number, xOhmPerKm: number) {
  const z: [number, number] = [rOhmPerKm, xOhmPerKm]
  return { id, name: id, kind: 'matrix' as const, zOhmPerKm: { AA: z, BB: z, CC: z } }
}
