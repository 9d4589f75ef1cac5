import { z } from 'zod'
import { PHASE_SETS, PHASES } from '#domain/units/phases.ts'

export const PhaseName = z.enum(PHASES)
export const PhaseSetName = z.enum(PHASE_SETS)
