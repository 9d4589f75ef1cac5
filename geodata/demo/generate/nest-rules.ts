import { roundTo } from './plane.ts'

/** Advisory distance and season of a species; the wildlife agency decides. */
export interface NestRule {
  readonly species: string
  readonly bufferM: number
  readonly seasonFrom: string
  readonly seasonTo: string
  readonly citation: string
}

const M_PER_MILE = 1_609.344

const SEEN =
  'Recommended raptor buffers as printed in a Colorado mining permit record (DRMS 948905, table 10, Roan Plateau); page seen. Advisory: ask the agency for the place at hand.'
const REMEMBERED =
  'Recommended raptor buffers, Colorado 2008 list, from memory; check before use. Advisory: ask the agency for the place at hand.'

const rule = (
  species: string,
  miles: number,
  seasonFrom: string,
  seasonTo: string,
  citation = SEEN,
): NestRule => ({
  species,
  bufferM: roundTo(miles * M_PER_MILE, 0),
  seasonFrom,
  seasonTo,
  citation,
})

export const NEST_RULES = {
  goldenEagle: rule('golden eagle', 0.5, '12-15', '07-15'),
  baldEagle: rule('bald eagle', 0.5, '10-15', '07-31'),
  osprey: rule('osprey', 0.25, '04-01', '08-31'),
  redTailedHawk: rule('red-tailed hawk', 0.33, '02-15', '07-15'),
  swainsonsHawk: rule("Swainson's hawk", 0.25, '04-01', '07-15'),
  ferruginousHawk: rule('ferruginous hawk', 0.5, '02-01', '07-15', REMEMBERED),
} as const satisfies Record<string, NestRule>
