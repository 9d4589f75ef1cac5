import type { InputFault, ProblemCode } from '#contract/problem.ts'
import type { Finding } from '#domain/feeder/finding.ts'

interface RefusalExtras {
  readonly findings?: readonly Finding[]
  readonly faults?: readonly InputFault[]
  /** The record as it stands. */
  readonly current?: unknown
  /** When the same request is worth sending again. */
  readonly retryAfterS?: number
}

/** A request that cannot be granted, with its reason for the person who asked. */
export class Refusal extends Error {
  readonly code: ProblemCode
  readonly extras: RefusalExtras

  constructor(code: ProblemCode, detail: string, extras: RefusalExtras = {}) {
    super(detail)
    this.name = 'Refusal'
    this.code = code
    this.extras = extras
  }
}
