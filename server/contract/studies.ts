import { z } from 'zod'
import { Id } from '#domain/feeder/identifiers.ts'
import { SiteRequest } from '#domain/siting/site-request.ts'
import { SiteResult } from '#domain/siting/site-result.ts'
import { Actor } from './actor.ts'
import { OwnWorkId, WorkProblem, WorkProgress } from './work.ts'

export const StartStudyBody = z.object({ request: SiteRequest, studyId: OwnWorkId })
export const StudyStarted = z.object({ studyId: Id })
export const StudyParams = z.object({ studyId: Id })

export const Study = WorkProgress.extend({
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
  problem: WorkProblem.optional(),
})

/** A study in a list: its result is asked for by itself. */
export const StudySummary = Study.omit({ result: true })

/**
 * Events of the stream and their JSON data. The present state comes first; the
 * stream ends after `done`, `failed` or `cancelled`.
 */
export const StudyEvent = z.discriminatedUnion('event', [
  z.object({ event: z.literal('progress'), data: WorkProgress }),
  z.object({ event: z.literal('done'), data: Study }),
  z.object({ event: z.literal('failed'), data: Study }),
  z.object({ event: z.literal('cancelled'), data: Study }),
])

export type Study = z.infer<typeof Study>
export type StudySummary = z.infer<typeof StudySummary>
export type StudyEvent = z.infer<typeof StudyEvent>
