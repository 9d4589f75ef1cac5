import { z } from 'zod'
import { Finding } from '#domain/feeder/finding.ts'

/** Stable names of everything that can go wrong with a request. */
export const PROBLEM_CODES = [
  'malformed-request',
  'sign-in-needed',
  'sign-in-refused',
  'too-many-tries',
  'not-allowed',
  'cross-site',
  'not-found',
  'method-not-allowed',
  'stale-version',
  'key-reused',
  'wrong-state',
  'too-large',
  'wrong-media-type',
  'feeder-refused',
  'not-converged',
  'interrupted',
  'unavailable',
  'internal',
] as const
export const ProblemCode = z.enum(PROBLEM_CODES)

/** One member of a request that does not fit its schema. */
export const InputFault = z.object({
  /** Where in the request: "body.request.banks". */
  at: z.string(),
  what: z.string(),
})

/** Problem answer after RFC 9457, with extension members `code`, `findings`, `faults`, `current` and `requestId`. */
export const Problem = z.object({
  type: z.string(),
  title: z.string(),
  status: z.number().int(),
  detail: z.string(),
  code: ProblemCode,
  findings: z.array(Finding).optional(),
  faults: z.array(InputFault).optional(),
  /** The record as it stands now, where a stale version was sent. */
  current: z.unknown().optional(),
  requestId: z.string().optional(),
})

export const PROBLEM_MEDIA_TYPE = 'application/problem+json'

export type ProblemCode = z.infer<typeof ProblemCode>
export type InputFault = z.infer<typeof InputFault>
export type Problem = z.infer<typeof Problem>
