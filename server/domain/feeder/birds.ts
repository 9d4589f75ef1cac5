import { z } from 'zod'
import { Area, Position } from './geometry.ts'
import { Id, IsoDate } from './identifiers.ts'

/** Day of the year as month-day, for windows that may run over New Year. */
const MonthDay = z
  .string()
  .regex(/^(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$/, 'must be month-day, as 02-15')

export const Nest = z.object({
  id: Id,
  at: Position,
  species: z.string().min(1),
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

export const Incident = z.object({
  id: Id,
  at: Position,
  pole: Id.optional(),
  foundOn: IsoDate,
  species: z.string().min(1),
  cause: z.enum([
    'confirmed electrocution',
    'probable electrocution',
    'collision',
    'shot',
    'unknown',
  ]),
  note: z.string().optional(),
})

export const PROTECTION_KINDS = ['guard', 'cover', 'perch'] as const
export const PROTECTION_STATES = ['planned', 'on', 'failed', 'removed'] as const

/** A guard, cover or perch on a pole. */
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
})

export type Nest = z.infer<typeof Nest>
export type Habitat = z.infer<typeof Habitat>
export type Incident = z.infer<typeof Incident>
export type Protection = z.infer<typeof Protection>
