import type { z } from 'zod'
import { REGULATOR_MAX_TAP } from '../../feeder/equipment.ts'
import type { Asked, Step } from '../step-sequence.ts'

/** A step as it is written down: what is usual may be left out. */
export type StepDraft = z.input<typeof Step>
export type AskDraft = z.input<typeof Asked>

/**
 * A question whose only good answer is yes.
 *
 * @param ifNo what a no means and what to do then; left out where the question says it itself
 */
export function confirm(id: string, what: string, ifNo?: string): AskDraft {
  return { id, what, kind: 'yes or no', judge: 'must be yes', ...(ifNo && { ifNo }) }
}

/** A position of a tap changer, raise above zero; no unit has more steps. */
export function tapAsk(id: string, what: string): Extract<AskDraft, { kind: 'number' }> {
  const range = { least: -REGULATOR_MAX_TAP, most: REGULATOR_MAX_TAP }
  return { id, what, kind: 'number', unit: 'steps', ...range }
}

export const COUNTER: Extract<AskDraft, { kind: 'number' }> = {
  id: 'counter',
  what: 'Operations counter',
  kind: 'number',
  unit: '',
  least: 0,
}
