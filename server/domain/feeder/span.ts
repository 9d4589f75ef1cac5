import { z } from 'zod'
import { Path } from './geometry.ts'
import { Id } from './identifiers.ts'
import { PhaseSetName } from './phases.ts'

/** Line between two poles. Series equipment sits at the near end, at pole `from`. */
export const Span = z.object({
  id: Id,
  path: Path,
  from: Id,
  to: Id,
  phases: PhaseSetName,
  /** Left out for a jumper of no impedance, which must then have `lengthM` 0. */
  lineType: Id.optional(),
  /** Electrical length, metres; measured along the path when left out. */
  lengthM: z.number().min(0).optional(),
  isNormallyOpen: z.boolean().default(false),
})
export type Span = z.infer<typeof Span>
