import { z } from 'zod'
import { Id } from '#domain/feeder/identifiers.ts'
import { SiteRequest } from '#domain/siting/site-request.ts'
import { SiteResult } from '#domain/siting/site-result.ts'
import { Actor } from './actor.ts'
import { Problem } from './problem.ts'

export const STUDY_STATES = ['queued', 'running', 'done', 'cancelled', 'failed'] as const
export const StudyState = z.enum(STUDY_STATES)

export const StartStudyBody = z.object({ request: SiteRequest })
export const StudyStarted = z.object({ studyId: Id })
export const StudyParams = z.object({ studyId: Id })

/** How far a study is: `done` of `total` steps of the named phase of work. */
export const StudyProgress = z.object({
  state: StudyState,
  done: z.number().int().min(0),
  total: z.number().int().min(0),
  phase: z.string(),
})

/** Why a study failed. */
export const StudyProblem = Problem.pick({ code: true, detail: true, findings: true })

export const Study = StudyProgress.extend({
  id: Id,
  feederId: Id,
  feederVersion: z.number().int().min(1),
  request: SiteRequest,
  startedBy: Actor,
  startedAt: z.iso.datetime(),
  endedAt: z.iso.datetime().nullable(),
  /** Present once the state is `done`. */
  result: SiteResult.optional(),
  /** Present once the state is `failed`. */
  problem: StudyProblem.optional(),
})

/**
 * Events of the stream and their JSON data. The present state comes first; the
 * stream ends after `done`, `failed` or `cancelled`.
 */
export const StudyEvent = z.discriminatedUnion('event', [
  z.object({ event: z.literal('progress'), data: StudyProgress }),
  z.object({ event: z.literal('done'), data: Study }),
  z.object({ event: z.literal('failed'), data: Study }),
  z.object({ event: z.literal('cancelled'), data: Study }),
])

export type StudyState = z.infer<typeof StudyState>
export type StudyProgress = z.infer<typeof StudyProgress>
export type StudyProblem = z.infer<typeof StudyProblem>
export type Study = z.infer<typeof Study>
export type StudyEvent = z.infer<typeof StudyEvent>

export function hasEnded(state: StudyState): boolean {
  return state === 'done' || state === 'cancelled' || state === 'failed'
}
