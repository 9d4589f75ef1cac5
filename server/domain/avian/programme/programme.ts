import { z } from 'zod'
import { Id, IsoDate } from '../../feeder/identifiers.ts'
import { MEASURE_KINDS } from '../../feeder/measure-kinds.ts'

/** What a year's work is chosen by. */
export const ProgrammeRequest = z.object({
  budgetUsd: z.number().min(0).max(1e9),
  /** Days on which work may be done, both counted. */
  from: IsoDate,
  to: IsoDate,
  crews: z.number().int().min(1).max(50).default(1),
  polesPerCrewDay: z.number().min(0.5).max(50).default(4),
  /** Of one way to one place; poles near each other share it. An assumption until entered. */
  visitCostUsd: z.number().min(0).max(1e6).default(350),
  /** Poles within so much of each other are one visit, metres. */
  sharedVisitM: z.number().min(0).max(50_000).default(800),
  /** Poles that wait for a regulator job, skipped; the job carries their measures. */
  waitingForJob: z.array(Id).default([]),
})

export const ChosenMeasure = z.object({
  kind: z.enum(MEASURE_KINDS),
  partIds: z.array(z.string()),
  dimensionM: z.number().optional(),
})

export const ChosenPole = z.object({
  pole: Id,
  measures: z.array(ChosenMeasure),
  /** Without the way there. */
  costUsd: z.number(),
  /** Expected reduction, in the units of the ranking (hazard times exposure). */
  reduction: z.number(),
  /** Index of its round. */
  round: z.number().int().min(0),
  /** "Nest in use 300 m away: not before 16 July; ask for the permit that applies." */
  notes: z.array(z.string()),
})

export const LeftOutPole = z.object({ pole: Id, why: z.string() })

export const Round = z.object({
  /** In the order of driving. */
  poles: z.array(Id),
  /** Driving between the poles, metres, straight. */
  driveM: z.number(),
  crewDays: z.number(),
  earliest: IsoDate,
  latest: IsoDate,
})

export const Programme = z.object({
  request: ProgrammeRequest,
  poles: z.array(ChosenPole),
  rounds: z.array(Round),
  leftOut: z.array(LeftOutPole),
  costUsd: z.number(),
  reduction: z.number(),
  /** Of all poles that are not closed. */
  reductionPossible: z.number(),
  /** Share of the best that it may lack: 0 where proven best. */
  gap: z.number().min(0),
  /** Benefit against budget. */
  curve: z.array(z.object({ budgetUsd: z.number(), reduction: z.number(), poles: z.number() })),
})

export type ProgrammeRequest = z.infer<typeof ProgrammeRequest>
export type LeftOutPole = z.infer<typeof LeftOutPole>
export type ChosenPole = z.infer<typeof ChosenPole>
export type Round = z.infer<typeof Round>
export type Programme = z.infer<typeof Programme>
