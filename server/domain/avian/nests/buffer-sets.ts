import { M_PER_FT, M_PER_MILE } from '#domain/units/length.ts'
import type { Nest } from '../../feeder/birds.ts'
import type { BirdSettings, BufferRule, BufferSet } from '../bird-settings.ts'
import type { Sureness } from '../eagle-guidance.ts'

type Row = readonly [species: string, miles: number, from: string, to: string]

const rulesOf = (rows: readonly Row[], sureness: BufferRule['sureness']): BufferRule[] =>
  rows.map(([species, miles, from, to]) => ({
    species,
    distanceM: miles * M_PER_MILE,
    from,
    to,
    sureness,
  }))

const baldEagle = (from: string, to: string): BufferRule => ({
  species: 'Bald eagle',
  distanceM: 660 * M_PER_FT,
  from,
  to,
  sureness: 'published',
})

/** Year-round. */
const ALWAYS = ['01-01', '12-31'] as const

const COLORADO: BufferSet = {
  id: 'colorado',
  region: 'Colorado (Roan Plateau)',
  source:
    'Recommended raptor buffers as printed in a Colorado mining permit record (DRMS 948905, table 10, Roan Plateau); page seen. Ferruginous hawk: Colorado list of 2008, from memory. The same table sets no distance for great horned owl and kestrel.',
  sourceDate: 'seen 2026-11-25',
  rules: [
    ...rulesOf(
      [
        ['Bald eagle', 0.5, '10-15', '07-31'],
        ["Cooper's hawk", 0.25, '04-01', '08-15'],
        ['Golden eagle', 0.5, '12-15', '07-15'],
        ['Long-eared owl', 0.25, '03-01', '07-15'],
        ['Northern harrier', 0.25, '04-01', '08-15'],
        ['Osprey', 0.25, '04-01', '08-31'],
        ['Peregrine falcon', 0.5, '03-15', '07-31'],
        ['Prairie falcon', 0.5, '03-15', '07-15'],
        ['Red-tailed hawk', 0.33, '02-15', '07-15'],
        ['Sharp-shinned hawk', 0.25, '04-01', '08-15'],
        ["Swainson's hawk", 0.25, '04-01', '07-15'],
      ],
      'published',
    ),
    ...rulesOf([['Ferruginous hawk', 0.5, '02-01', '07-15']], 'from memory'),
  ],
}

const UTAH: BufferSet = {
  id: 'utah-2002',
  region: 'Utah',
  source:
    'Romin and Muck, Utah Field Office Guidelines for Raptor Protection from Human and Land Use Disturbances, U.S. Fish and Wildlife Service, 2002, table 2. All figures from memory: the table itself was not seen.',
  sourceDate: '2002',
  rules: rulesOf(
    [
      ['Bald eagle', 1, '01-01', '08-31'],
      ['Golden eagle', 0.5, '01-01', '08-31'],
      ['Northern goshawk', 0.5, '03-01', '08-15'],
      ['Northern harrier', 0.5, '04-01', '08-15'],
      ["Cooper's hawk", 0.5, '03-15', '08-31'],
      ['Ferruginous hawk', 0.5, '03-01', '08-01'],
      ['Red-tailed hawk', 0.5, '03-15', '08-15'],
      ['Sharp-shinned hawk', 0.5, '03-15', '08-31'],
      ["Swainson's hawk", 0.5, '03-01', '08-31'],
      ['Turkey vulture', 0.5, '05-01', '08-15'],
      ['California condor', 1, ...ALWAYS],
      ['Peregrine falcon', 1, '02-01', '08-31'],
      ['Prairie falcon', 0.25, '04-01', '08-31'],
      ['Merlin', 0.5, '04-01', '08-31'],
      ['Osprey', 0.5, '04-01', '08-31'],
      ['Burrowing owl', 0.25, '03-01', '08-31'],
      ['Great horned owl', 0.25, '12-01', '09-30'],
      ['Long-eared owl', 0.25, '02-01', '08-15'],
      ['Short-eared owl', 0.25, '03-01', '08-01'],
    ],
    'from memory',
  ),
}

const STEP_4 =
  'U.S. Fish and Wildlife Service, bald eagle guidance for activities near nests, step 4: 660 ft where the nest is in sight and nothing similar stands as close already (power lines are named). Page seen.'

const MID_ATLANTIC: BufferSet = {
  id: 'bald-eagle-mid-atlantic',
  region: 'Bald eagle, national guidance (Delaware, Maryland, Virginia)',
  source: `${STEP_4} Season from mid-December, here the 15th, to June: Northeast Region.`,
  sourceDate: '2007, seen 2026-11-25',
  rules: [baldEagle('12-15', '06-30')],
}

const NORTHEAST: BufferSet = {
  id: 'bald-eagle-northeast',
  region: 'Bald eagle, national guidance (elsewhere in the Northeast)',
  source: `${STEP_4} Season as late as January to July: Northeast Region.`,
  sourceDate: '2007, seen 2026-11-25',
  rules: [baldEagle('01-01', '07-31')],
}

/**
 * Recommended distances from nests that the program starts with. Advisory; the agency decides.
 * Great horned owl and kestrel have no row where their source sets no distance.
 */
export const SHIPPED_BUFFER_SETS: readonly BufferSet[] = [COLORADO, UTAH, MID_ATLANTIC, NORTHEAST]

export interface NestBuffer {
  readonly distanceM: number
  /** First and last day of the season, as "12-15". */
  readonly from: string
  readonly to: string
  readonly source: string
  readonly sureness: Sureness
}

/** Half a metre either way is the same distance, written down in whole metres. */
const SAME_M = 0.51

/**
 * What counts around a nest: the rule of the set in force for its species, else what is recorded
 * with the nest. A record that says the same as a shipped rule has that rule's sureness; any other is
 * an assumption until somebody checks it. Advisory; the agency decides.
 */
export function nestBuffer(nest: Nest, settings?: BirdSettings): NestBuffer {
  const set = bufferSetInForce(settings)
  const rule = set && ruleFor(set, nest.species)
  if (rule) return { ...bufferOf(rule), source: sourceOf(set) }
  const own: BufferRule = {
    species: nest.species,
    distanceM: nest.bufferM,
    from: nest.seasonFrom,
    to: nest.seasonTo,
    sureness:
      SHIPPED_BUFFER_SETS.map((shipped) => ruleFor(shipped, nest.species)).find((shipped) =>
        isSame(shipped, nest),
      )?.sureness ?? 'assumption',
  }
  return { ...bufferOf(own), source: nest.citation ?? 'Recorded with the nest, without a source.' }
}

/** The set that the settings name, of those entered and those shipped; null where none is named. */
export function bufferSetInForce(settings?: BirdSettings): BufferSet | null {
  const id = settings?.bufferSetId
  if (settings === undefined || id === undefined) return null
  return [...settings.bufferSets, ...SHIPPED_BUFFER_SETS].find((set) => set.id === id) ?? null
}

export function ruleFor(set: BufferSet, species: string): BufferRule | undefined {
  const wanted = nameKey(species)
  return set.rules.find((rule) => nameKey(rule.species) === wanted)
}

/** Names are written with either apostrophe, with hyphens or without, and in any case. */
function nameKey(species: string): string {
  return species
    .toLowerCase()
    .replace(/[’‘]/g, "'")
    .replace(/[-\s]+/g, ' ')
    .trim()
}

function isSame(rule: BufferRule | undefined, nest: Nest): boolean {
  return (
    rule !== undefined &&
    Math.abs(rule.distanceM - nest.bufferM) <= SAME_M &&
    rule.from === nest.seasonFrom &&
    rule.to === nest.seasonTo
  )
}

function bufferOf({ distanceM, from, to, sureness }: BufferRule): Omit<NestBuffer, 'source'> {
  return { distanceM, from, to, sureness }
}

function sourceOf({ region, source, sourceDate }: BufferSet): string {
  return `${region}: ${source} (${sourceDate})`
}
