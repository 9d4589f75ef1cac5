import type { Incident, Nest, Protection } from '#domain/feeder/birds.ts'
import { Feeder } from '#domain/feeder/feeder.ts'
import type { Position } from '#domain/feeder/geometry.ts'
import { Pole } from '#domain/feeder/pole.ts'

const IN = 0.0254

export interface Gaps {
  phaseHorizontalIn?: number
  phaseVerticalIn?: number
  groundHorizontalIn?: number
  groundVerticalIn?: number
}

const metres = (inches: number | undefined): number | undefined =>
  inches === undefined ? undefined : inches * IN

/** A pole whose separations are given in inches, as crews measure them. */
export function poleWith(gaps: Gaps, id = 'P-1', at: Position = [-107, 43]): Pole {
  return Pole.parse({
    id,
    at,
    phaseToPhaseHorizontalM: metres(gaps.phaseHorizontalIn),
    phaseToPhaseVerticalM: metres(gaps.phaseVerticalIn),
    phaseToGroundHorizontalM: metres(gaps.groundHorizontalIn),
    phaseToGroundVerticalM: metres(gaps.groundVerticalIn),
  })
}

export interface BirdRecord {
  nests?: Nest[]
  incidents?: Incident[]
  protections?: Protection[]
}

/** Poles in a row, joined by three-phase spans, with a bird record. */
export function birdFeeder(poles: Pole[], record: BirdRecord = {}): Feeder {
  return Feeder.parse({
    header: {
      format: 'crossarm-feeder-1',
      id: 'T',
      name: 'Test feeder',
      nominalKv: 24.9,
      source: { pole: poles[0]?.id ?? 'P-1' },
      lineTypes: [],
      cases: [{ id: 'peak', name: 'Peak' }],
    },
    poles,
    spans: poles.slice(1).map((pole, index) => ({
      id: `S-${index}`,
      from: poles[index]?.id,
      to: pole.id,
      path: [poles[index]?.at, pole.at],
      phases: 'ABC',
    })),
    equipment: [],
    loads: [],
    nests: record.nests ?? [],
    habitat: [],
    incidents: record.incidents ?? [],
    protections: record.protections ?? [],
    access: [],
    keepOuts: [],
  })
}

export function nestAt(at: Position, changes: Partial<Nest> = {}): Nest {
  return {
    id: 'N-1',
    at,
    species: 'Golden eagle',
    status: 'in use',
    bufferM: 804.672,
    seasonFrom: '12-15',
    seasonTo: '07-15',
    ...changes,
  }
}
