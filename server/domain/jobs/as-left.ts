import { z } from 'zod'
import { Id, IsoDate } from '../feeder/identifiers.ts'
import { MEASURE_KINDS } from '../feeder/measure-kinds.ts'
import { PhaseName } from '../feeder/phases.ts'

const Words = z.string().max(2000)
const Volts = z.number().min(0).max(100_000)

/** One unit of a bank as the crew left it. */
export const UnitAsLeft = z.object({
  phase: PhaseName,
  serialNumber: z.string().max(80).default(''),
  /** From the nameplate, in the maker's own words. */
  nameplate: Words.default(''),
  ratingKva: z.number().positive().optional(),
  ratingA: z.number().positive().optional(),
  tapFound: z.number().int().min(-16).max(16).optional(),
  tapLeft: z.number().int().min(-16).max(16).optional(),
  counterFound: z.number().int().min(0).optional(),
  counterLeft: z.number().int().min(0).optional(),
  sourceVBefore: Volts.optional(),
  loadVBefore: Volts.optional(),
  sourceVAfter: Volts.optional(),
  loadVAfter: Volts.optional(),
  ampsAfter: z.number().min(0).max(10_000).optional(),
})

/** Settings of the controls as the crew left them; volts on the 120 V base. */
export const SettingsAsLeft = z.object({
  bandCentreV: z.number().min(100).max(140),
  bandwidthV: z.number().min(0.5).max(10),
  delayS: z.number().min(0).max(600),
  rV: z.number().min(-24).max(24),
  xV: z.number().min(-24).max(24),
  ptRatio: z.number().positive(),
  ctPrimaryA: z.number().positive(),
  maxRaise: z.number().int().min(0).max(16),
  maxLower: z.number().int().min(0).max(16),
})

/**
 * A measure for birds as it was carried out, or `why` it was not. Of one that was carried out although
 * its step was left out, `why` says how that comes.
 */
export const MeasureAsLeft = z.object({
  pole: Id,
  measure: z.enum(MEASURE_KINDS),
  partIds: z.array(z.string().max(120)).max(60),
  dimensionM: z.number().positive().max(15).optional(),
  isDone: z.boolean(),
  why: Words.optional(),
  materialClass: z.string().max(200).optional(),
})

/** What stands at the poles of a job when the crew leaves. */
export const AsLeft = z.object({
  /** Day of the work. */
  on: IsoDate,
  crew: z.array(z.string().trim().min(1).max(120)).max(12),
  units: z.array(UnitAsLeft).max(3),
  settings: SettingsAsLeft.optional(),
  measures: z.array(MeasureAsLeft).max(400),
  remarks: z.string().max(4000).default(''),
  /** Who signs for it, and the drawn signature as an SVG path in a box of 300 × 100. */
  signedBy: z.string().trim().max(120).default(''),
  signaturePath: z
    .string()
    .regex(/^[MLmlZz0-9., -]*$/)
    .max(20_000)
    .default(''),
})

export type UnitAsLeft = z.infer<typeof UnitAsLeft>
export type SettingsAsLeft = z.infer<typeof SettingsAsLeft>
export type MeasureAsLeft = z.infer<typeof MeasureAsLeft>
export type AsLeft = z.infer<typeof AsLeft>
