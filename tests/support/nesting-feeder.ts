import type { Incident, Nest } from '#domain/feeder/birds.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import { smallFeeder } from './small-feeder.ts'

export const OSPREY_NEST: Omit<Nest, 'id'> = {
  at: [-106.95, 43.001],
  species: 'osprey',
  pole: 'P3',
  status: 'in use',
  bufferM: 800,
  seasonFrom: '04-01',
  seasonTo: '08-31',
}

export const OSPREY_FOUND: Omit<Incident, 'id'> = {
  at: [-106.94, 43],
  pole: 'P3',
  foundOn: '2026-03-01',
  species: 'osprey',
  cause: 'confirmed electrocution',
  note: 'under the east phase',
}

/** The small feeder with a nest N1 on pole P3 and a find I1 below it. */
export function nestingFeeder(choices: Parameters<typeof smallFeeder>[0] = {}): Feeder {
  return {
    ...smallFeeder(choices),
    nests: [{ id: 'N1', ...OSPREY_NEST }],
    incidents: [{ id: 'I1', ...OSPREY_FOUND }],
  }
}
