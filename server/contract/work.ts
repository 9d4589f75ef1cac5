import { z } from 'zod'
import { Id } from '#domain/feeder/identifiers.ts'
import { SiteRequest } from '#domain/siting/site-request.ts'
import { Actor } from './actor.ts'
import { TakeInBody } from './feeders.ts'
import { Problem } from './problem.ts'
import { HistoryReportRequest } from './reports.ts'

/** Long work: a siting study, one for each of several feeders, taking in a large feeder, a report. */
export const WORK_KINDS = ['siting', 'siting-many', 'take-in', 'history-report'] as const
export const WORK_STATES = ['queued', 'running', 'done', 'cancelled', 'failed'] as const
export const WorkKindName = z.enum(WORK_KINDS)
export const WorkState = z.enum(WORK_STATES)

/** How far the work is: `done` of `total` steps of the named phase. */
export const WorkProgress = z.object({
  state: WorkState,
  done: z.number().int().min(0),
  total: z.number().int().min(0),
  phase: z.string(),
})

/** Why the work failed. */
export const WorkProblem = Problem.pick({ code: true, detail: true, findings: true })

export const Work = WorkProgress.extend({
  id: Id,
  kind: WorkKindName,
  /** Null where the work is of no feeder that the record knows yet, or of several. */
  feederId: Id.nullable(),
  startedBy: Actor,
  startedAt: z.iso.datetime(),
  endedAt: z.iso.datetime().nullable(),
  /** Present once the state is `done`; its form is that of the kind. */
  result: z.unknown().optional(),
  /** Present once the state is `failed`. */
  problem: WorkProblem.optional(),
})

/** Present state first; the stream ends after `done`, `failed` or `cancelled`. */
export const WorkEvent = z.discriminatedUnion('event', [
  z.object({ event: z.literal('progress'), data: WorkProgress }),
  z.object({ event: z.literal('done'), data: Work }),
  z.object({ event: z.literal('failed'), data: Work }),
  z.object({ event: z.literal('cancelled'), data: Work }),
])

export const WorkParams = z.object({ workId: Id })
export const WorkStarted = z.object({ workId: Id })

/**
 * Made by the client, so that work that is asked for twice is done once. The server makes one
 * where it is left out.
 */
export const OwnWorkId = z.uuid().optional()

/** An item in a list: its result is asked for by itself. */
export const WorkSummary = Work.omit({ result: true }).extend({
  /** The work that this is a part of. */
  partOf: Id.nullable(),
  /** How many feeders it is about, where it is about several. */
  feeders: z.number().int().min(1).nullable(),
  /** Name of the feeder that is taken in, where its layers say it. */
  feederName: z.string().nullable(),
  /** What a report was asked to be of. */
  report: HistoryReportRequest.nullable(),
})
export const WorkListQuery = z.object({
  /** Parts of this work; without it all that is part of nothing. */
  partOf: Id.optional(),
})

/** The result is a `TakenIn`. */
export const StartImportBody = TakeInBody.extend({ workId: OwnWorkId })

/** The result is a `HistoryReportResult`. */
export const StartHistoryReportBody = HistoryReportRequest.extend({ workId: OwnWorkId })

const MOST_FEEDERS = 500

/** One study for each of the feeders, all with the same request. */
export const StartStudiesBody = z.object({
  feederIds: z.array(Id).min(1).max(MOST_FEEDERS),
  request: SiteRequest,
  workId: OwnWorkId,
})
export const StudiesStarted = z.object({
  workId: Id,
  studies: z.array(z.object({ feederId: Id, studyId: Id })),
})

export type WorkKindName = z.infer<typeof WorkKindName>
export type WorkState = z.infer<typeof WorkState>
export type WorkProgress = z.infer<typeof WorkProgress>
export type WorkProblem = z.infer<typeof WorkProblem>
export type Work = z.infer<typeof Work>
export type WorkSummary = z.infer<typeof WorkSummary>
export type StartHistoryReportBody = z.output<typeof StartHistoryReportBody>
export type WorkEvent = z.infer<typeof WorkEvent>
export type StartImportBody = z.output<typeof StartImportBody>
export type StartStudiesBody = z.output<typeof StartStudiesBody>
export type StudiesStarted = z.infer<typeof StudiesStarted>

export function hasEnded(state: WorkState): boolean {
  return state === 'done' || state === 'cancelled' || state === 'failed'
}
