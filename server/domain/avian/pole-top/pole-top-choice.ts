import { z } from 'zod'
import { Id } from '../../feeder/identifiers.ts'
import { DIMENSIONS, FRAMINGS } from './framing.ts'
import { PART_KINDS } from './part.ts'

/** Farther from the pole top, in any direction, no part matters to a bird on it. */
const MOST_M = 15
const Place = z.tuple([
  z.number().min(-MOST_M).max(MOST_M),
  z.number().min(-MOST_M).max(MOST_M),
  z.number().min(-MOST_M).max(MOST_M),
])

/** A part that no template gives; x across the line, y along it, z up from the pole top. */
export const AddedPart = z.object({
  id: Id,
  label: z.string().trim().min(1).max(80),
  kind: z.enum(PART_KINDS),
  potential: z.enum(['A', 'B', 'C', 'grounded', 'none']),
  fromM: Place,
  toM: Place,
  radiusM: z.number().min(0).max(2).default(0),
  canPerch: z.boolean().default(false),
})

/**
 * What a person says of the top of one pole, in place of what its record and equipment imply. All of
 * it is optional: what is left out stays as implied.
 */
export const PoleTopChoice = z.object({
  pole: Id,
  framing: z.enum(FRAMINGS).optional(),
  /** Metres, in place of the usual ones. */
  measured: z.partialRecord(z.enum(DIMENSIONS), z.number().min(0).max(MOST_M)).default({}),
  armMaterial: z.enum(['wood', 'steel', 'fibreglass']).optional(),
  groundWire: z.enum(['none', 'to the neutral', 'to the pole top']).optional(),
  regulatorConnection: z.enum(['wye', 'open delta', 'closed delta']).optional(),
  regulatorMounting: z.enum(['platform', 'on the pole']).optional(),
  /** Ids of parts that the template gives and that this pole does not have. */
  withoutParts: z.array(z.string().max(120)).max(100).default([]),
  addedParts: z.array(AddedPart).max(50).default([]),
  note: z.string().max(2000).default(''),
})

export type AddedPart = z.infer<typeof AddedPart>
export type PoleTopChoice = z.infer<typeof PoleTopChoice>
