import { z } from 'zod'
import { Id } from './identifiers.ts'
import { LineType } from './line-type.ts'

const PerPhase = z.object({ A: z.number(), B: z.number(), C: z.number() })

/** The regulated bus that feeds the line. */
export const Source = z.object({
  pole: Id,
  /** One figure for a balanced source, or one per phase; per unit of nominal. */
  voltagePu: z.union([z.number().positive(), PerPhase]).default(1),
  /** Angle of phase A, degrees; B and C follow at −120° and +120°. */
  angleDeg: z.number().default(0),
  /** Impedance behind the source, ohms at nominal voltage; none when left out. */
  impedance: z
    .object({ r1Ohm: z.number(), x1Ohm: z.number(), r0Ohm: z.number(), x0Ohm: z.number() })
    .optional(),
})

/** One loading of the feeder: factors on the recorded loads, by customer class. */
export const LoadCase = z.object({
  id: Id,
  name: z.string().min(1),
  /** Factor for classes that `classFactors` does not name. */
  loadFactor: z.number().min(0).default(1),
  /** Factor by customer class. */
  classFactors: z.record(z.string(), z.number().min(0)).default({}),
  /** Share of rated output that generation delivers, 0 to 1. */
  generationFactor: z.number().min(0).max(1).default(0),
  /** Hours of the year that this case stands for, for energy and losses. */
  hoursPerYear: z.number().min(0).max(8784).default(0),
  /** Replaces the source voltage in this case, per unit. */
  sourceVoltagePu: z.number().positive().optional(),
})

/** Limits for the primary on the 120 V base. Default: the 8 V rule, 126 V down to 118 V. */
export const VoltageLimits = z.object({
  lowVolts120: z.number().min(0).default(118),
  highVolts120: z.number().positive().default(126),
})

export const FeederHeader = z.object({
  format: z.literal('crossarm-feeder-1'),
  id: Id,
  name: z.string().min(1),
  nominalKv: z.number().positive().describe('Nominal line-to-line kilovolts at the source.'),
  source: Source,
  lineTypes: z.array(LineType),
  cases: z.array(LoadCase).min(1),
  limits: VoltageLimits.default({ lowVolts120: 118, highVolts120: 126 }),
  /** Yearly growth of load, percent. */
  growthPctPerYear: z.number().default(0),
  /** Whether positions are surveyed, drawn as a scheme, or invented. */
  coordinates: z.enum(['surveyed', 'schematic', 'invented']).default('surveyed'),
  /** Id of the base map this feeder lies in. */
  place: Id.optional(),
  citation: z.string().optional(),
})

export type Source = z.infer<typeof Source>
export type LoadCase = z.infer<typeof LoadCase>
export type VoltageLimits = z.infer<typeof VoltageLimits>
export type FeederHeader = z.infer<typeof FeederHeader>
