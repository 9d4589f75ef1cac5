import { z } from 'zod'
import { Position } from './geometry.ts'
import { Id } from './identifiers.ts'

export const Pole = z.object({
  id: Id,
  at: Position,
  /** Length of the pole, metres, butt to top. */
  heightM: z.number().positive().optional(),
  /** Strength class as ANSI O5.1 numbers it: 1 is stronger than 5; H1 to H6 above. */
  poleClass: z
    .string()
    .regex(/^(H[1-6]|10|[1-9])$/, 'must be 1 to 10 or H1 to H6')
    .optional(),
  material: z.enum(['wood', 'steel', 'concrete', 'composite', 'unknown']).optional(),
  /** How the conductors are carried: "tangent 8 ft arm", "double dead-end", … */
  framing: z.string().optional(),
  installedYear: z.number().int().min(1880).max(2200).optional(),
  /** True for a point of a published feeder that stands for no known pole. */
  isAnonymousNode: z.boolean().default(false),
  /** Least separations measured on the pole, metres: between phases, and from a phase to anything grounded. */
  phaseToPhaseHorizontalM: z.number().min(0).optional(),
  phaseToPhaseVerticalM: z.number().min(0).optional(),
  phaseToGroundHorizontalM: z.number().min(0).optional(),
  phaseToGroundVerticalM: z.number().min(0).optional(),
  /** Directions for finding it: "east side of the road, 40 m past the gate". */
  location: z.string().optional(),
})
export type Pole = z.infer<typeof Pole>
