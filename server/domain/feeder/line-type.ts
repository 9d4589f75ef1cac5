import { z } from 'zod'
import { Id } from './identifiers.ts'

const ComplexPair = z.tuple([z.number(), z.number()])

/** Upper triangle of a symmetric phase matrix; entries for phases the line lacks are left out. */
const PhaseMatrix = <Entry extends z.ZodType>(entry: Entry) =>
  z.object({
    AA: entry.optional(),
    BB: entry.optional(),
    CC: entry.optional(),
    AB: entry.optional(),
    AC: entry.optional(),
    BC: entry.optional(),
  })

const common = {
  id: Id,
  name: z.string().min(1),
  /** Continuous current limit of the phase conductor, amperes; left out, that of the conductor table. */
  ampacityA: z.number().positive().optional(),
  /** Where the figures come from and how sure they are. */
  citation: z.string().optional(),
}

/** Measured or published phase impedance (ohm/km, [resistance, reactance]) and shunt susceptance (µS/km). */
export const MatrixLineType = z.object({
  ...common,
  kind: z.literal('matrix'),
  zOhmPerKm: PhaseMatrix(ComplexPair),
  bMicrosiemensPerKm: PhaseMatrix(z.number()).optional(),
})

export const ConductorPosition = z.object({
  /** N is the neutral; more than one neutral is allowed. */
  role: z.enum(['A', 'B', 'C', 'N']),
  /** Horizontal offset from any fixed vertical, metres. */
  xM: z.number(),
  /** Height above ground, metres. */
  heightM: z.number().positive(),
  /** Id in the conductor table of domain/electrical. */
  conductor: z.string().min(1),
})

/** Positions and conductors, from which the modified Carson equations give the matrices. */
export const GeometryLineType = z.object({
  ...common,
  kind: z.literal('geometry'),
  positions: z.array(ConductorPosition).min(1),
  earthOhmM: z.number().positive().default(100),
  frequencyHz: z.number().positive().default(60),
  /** False leaves line charging out, as some published cases do. */
  hasCharging: z.boolean().default(true),
})

export const LineType = z.discriminatedUnion('kind', [MatrixLineType, GeometryLineType])
export type MatrixLineType = z.infer<typeof MatrixLineType>
export type GeometryLineType = z.infer<typeof GeometryLineType>
export type ConductorPosition = z.infer<typeof ConductorPosition>
export type LineType = z.infer<typeof LineType>
