import { z } from 'zod'
import { Area, Position } from './geometry.ts'
import { Id, IsoDate } from './identifiers.ts'
import { MEASURE_KINDS } from './measure-kinds.ts'

/** Day of the year as month-day, for windows that may run over New Year. */
export const MonthDay = z
  .string()
  .regex(/^(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$/, 'must be month-day, as 02-15')

export const Nest = z.object({
  id: Id,
  at: Position,
  species: z.string().min(1),
  /** The pole that it is on, if any. */
  pole: Id.optional(),
  platform: z.enum(['none', 'on this pole', 'on a pole of its own']).optional(),
  status: z.enum(['in use', 'not in use', 'unknown']).default('unknown'),
  lastSeen: IsoDate.optional(),
  /** Advisory buffer; the agency decides. */
  bufferM: z.number().min(0),
  seasonFrom: MonthDay,
  seasonTo: MonthDay,
  citation: z.string().optional(),
})

export const Habitat = z.object({
  id: Id,
  area: Area,
  name: z.string().min(1),
  species: z.string().optional(),
})

export const INCIDENT_CAUSES = [
  'confirmed electrocution',
  'probable electrocution',
  'collision',
  'shot',
  'unknown',
] as const

/** How sure one is of what was seen. */
const Certainty = z.enum(['certain', 'probable', 'unsure'])
const Words = z.string().max(2000)

/**
 * A dead or hurt bird. Which fields a record of it should have is from memory of what utilities and
 * agencies ask for; none of the later ones is needed to begin with.
 */
export const Incident = z.object({
  id: Id,
  at: Position,
  pole: Id.optional(),
  foundOn: IsoDate,
  species: z.string().min(1),
  cause: z.enum(INCIDENT_CAUSES),
  note: z.string().optional(),

  foundAt: z
    .string()
    .regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'must be hours and minutes, as 14:30')
    .optional(),
  diedOn: IsoDate.optional(),
  finder: z.string().max(200).optional(),
  district: z.string().max(200).optional(),
  /** Birds found; one when left out. */
  count: z.number().int().min(1).max(1000).optional(),
  outcome: z.enum(['dead', 'injured', 'flew off']).optional(),
  speciesCertainty: Certainty.optional(),
  age: z.enum(['adult', 'subadult', 'juvenile', 'nestling', 'unknown']).optional(),
  sex: z.enum(['female', 'male', 'unknown']).optional(),

  burnsOnBird: Words.optional(),
  burnsOnHardware: Words.optional(),
  /** Where current went in and out of the bird. */
  entryAndExit: Words.optional(),
  carcass: z.enum(['fresh', 'decayed', 'bones', 'feathers only', 'none']).optional(),
  necropsy: z.enum(['not asked for', 'asked for', 'done']).optional(),
  necropsyResult: Words.optional(),
  /** Ids of the two parts that it is thought to have touched. */
  suspectedPartA: z.string().max(120).optional(),
  suspectedPartB: z.string().max(120).optional(),

  /** What was on the pole when it happened: covers, perch, nest. */
  poleAtEvent: Words.optional(),
  hadOutage: z.boolean().optional(),
  deviceOperated: Words.optional(),
  customersOut: z.number().int().min(0).max(1e7).optional(),
  outageMin: z.number().min(0).max(1e6).optional(),

  disposition: Words.optional(),
  permit: Words.optional(),
  agency: z.string().max(200).optional(),
  agencyToldOn: IsoDate.optional(),
  agencyToldBy: z.string().max(200).optional(),
  recommended: Words.optional(),
  visitDueOn: IsoDate.optional(),
  visitedOn: IsoDate.optional(),
  fixDueOn: IsoDate.optional(),
  fixedOn: IsoDate.optional(),
  inspectionDueOn: IsoDate.optional(),
  inspectedOn: IsoDate.optional(),
  neighboursDueOn: IsoDate.optional(),
  neighboursDoneOn: IsoDate.optional(),
  verifiedBy: z.string().max(200).optional(),
})

export const PROTECTION_KINDS = ['guard', 'cover', 'perch', 'change of the framing'] as const
export const PROTECTION_STATES = ['planned', 'on', 'failed', 'removed'] as const

export const ITEM_CONDITIONS = ['sound', 'loose', 'slipped', 'tracked', 'missing'] as const

/** A guard, cover or perch on a pole, or what was changed of its framing. */
export const Protection = z.object({
  id: Id,
  pole: Id,
  kind: z.enum(PROTECTION_KINDS),
  /** What it covers or where it sits: "bushing cover, A phase". */
  what: z.string().min(1),
  state: z.enum(PROTECTION_STATES),
  /** Date of the state. */
  on: IsoDate,
  note: z.string().optional(),

  /** The kind of measure that it is; told from the words where left out. */
  measure: z.enum(MEASURE_KINDS).optional(),
  /** Ids of the parts that it covers; all that the words mean where left out. */
  partIds: z.array(z.string().max(120)).max(60).optional(),
  /** New dimension, where an arm was made longer or lowered or the pole top raised, metres. */
  dimensionM: z.number().positive().max(15).optional(),
  /** As marked on it: "25 kV, polymer". */
  materialClass: z.string().max(200).optional(),
  installedBy: z.string().max(200).optional(),
  costUsd: z.number().min(0).max(1e7).optional(),
  inspectEveryMonths: z.number().int().min(1).max(600).optional(),
  /** What the last look found; a condition other than sound counts as failed. */
  condition: z.enum(ITEM_CONDITIONS).optional(),
  inspectedOn: IsoDate.optional(),
})

export type Nest = z.infer<typeof Nest>
export type Habitat = z.infer<typeof Habitat>
export type Incident = z.infer<typeof Incident>
export type Protection = z.infer<typeof Protection>
