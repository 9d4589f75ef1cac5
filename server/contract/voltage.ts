import { z } from 'zod'
import { REGULATOR_MAX_TAP, Regulator } from '#domain/feeder/equipment.ts'
import { Id } from '#domain/feeder/identifiers.ts'
import { PhaseName } from '#domain/feeder/phases.ts'
import { CaseSolution } from './case-solution.ts'

const Tap = z.number().int().min(-REGULATOR_MAX_TAP).max(REGULATOR_MAX_TAP)

export const VoltageBody = z.object({
  /** One load case; all of them when left out. */
  caseId: Id.optional(),
  /** `fixed`: positions as recorded or given. `controlled`: each control moves its own. */
  taps: z.enum(['fixed', 'controlled']),
  /** Banks tried in addition to those of the feeder. */
  extraBanks: z.array(Regulator).max(8).optional(),
  /** Positions by regulator id, in place of the recorded ones; only with fixed taps. */
  fixedTaps: z.record(Id, z.partialRecord(PhaseName, Tap)).optional(),
})

export const VoltageAnswer = z.object({ solutions: z.array(CaseSolution) })

export type VoltageBody = z.infer<typeof VoltageBody>
export type VoltageAnswer = z.infer<typeof VoltageAnswer>
