import type { z } from 'zod'
import type { Asked, Step } from '../step-sequence.ts'

/** A step as it is written down: what is usual may be left out. */
export type StepDraft = z.input<typeof Step>
export type AskDraft = z.input<typeof Asked>

/** A question whose only good answer is yes. */
export function confirm(id: string, what: string): AskDraft {
  return { id, what, kind: 'yes or no', judge: 'must be yes' }
}
