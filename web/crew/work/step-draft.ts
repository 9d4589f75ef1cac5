import { z } from 'zod'
import type { ReadValue } from '#domain/jobs/job-entry.ts'
import type { Asked, Signer, Step } from '#domain/jobs/step-sequence.ts'
import type { Phase } from '#domain/units/phases.ts'
import { keptOnDevice } from './kept-on-device.ts'
import { numberOfText } from './number-of-text.ts'

/** What a person has filled in of a step; not yet checked. */
export const StepDraft = z.object({
  /** By the id of what is asked; numbers as they were typed. */
  values: z.record(z.string(), z.union([z.string(), z.boolean()])),
  signedBy: z.array(z.string()),
  remark: z.string(),
  isLeavingOut: z.boolean(),
  why: z.string(),
})
export type StepDraft = z.infer<typeof StepDraft>

export const EMPTY_STEP_DRAFT: StepDraft = {
  values: {},
  signedBy: [],
  remark: '',
  isLeavingOut: false,
  why: '',
}

/** Drafts of steps, so that a reload in the middle of one loses nothing. */
export const stepDrafts = keptOnDevice('step-draft', StepDraft)

export interface StepAddress {
  readonly jobId: string
  readonly poleId: string
  readonly stepId: string
  readonly phase?: Phase
}

export function draftKey({ jobId, poleId, stepId, phase }: StepAddress): string {
  return [jobId, poleId, stepId, phase ?? 'once'].join('~')
}

export interface ReadDraft {
  readonly values: Readonly<Record<string, ReadValue>>
  /** By the id of what is asked: what is wrong with what was typed. */
  readonly faults: Readonly<Record<string, string>>
  /** What is needed and still empty. */
  readonly missing: readonly Asked[]
}

/** Turns what was typed into values. */
export function readDraft(step: Step, draft: StepDraft): ReadDraft {
  const values: Record<string, ReadValue> = {}
  const faults: Record<string, string> = {}
  const missing: Asked[] = []
  for (const asked of step.asks) {
    const typed = draft.values[asked.id]
    if (typed === undefined || (typeof typed === 'string' && typed.trim() === '')) {
      if (asked.isNeeded) missing.push(asked)
      continue
    }
    if (asked.kind !== 'number' || typeof typed === 'boolean') {
      values[asked.id] = typeof typed === 'string' ? typed.trim() : typed
      continue
    }
    const read = numberOfText(typed)
    if (read === null) faults[asked.id] = `“${typed}” is not a number.`
    else values[asked.id] = read
  }
  return { values, faults, missing }
}

/** How many different people sign. */
export function signersNeeded(signer: Signer): 1 | 2 {
  return signer === 'two of the crew' ? 2 : 1
}

/** What is still to be done before the step can be entered, in sentences; empty when nothing is. */
export function openPoints(step: Step, draft: StepDraft): string[] {
  const { faults, missing } = readDraft(step, draft)
  const needed = signersNeeded(step.signedBy)
  const signed = new Set(draft.signedBy).size
  return [
    ...missing.map(({ what }) => `Still asked for: ${lowerFirst(what)}.`),
    ...Object.values(faults),
    ...(signed < needed ? [signatureMissing(step.signedBy, signed)] : []),
  ]
}

function signatureMissing(signer: Signer, signed: number): string {
  if (signer === 'two of the crew') {
    return signed === 1
      ? 'A second person has to sign, too.'
      : 'Two different people of the crew have to sign.'
  }
  return signer === 'person in charge'
    ? 'The person in charge has to sign.'
    : 'Somebody of the crew has to sign.'
}

/** The first letter small, unless the word is written in capitals. */
function lowerFirst(text: string): string {
  const second = text.charAt(1)
  return second !== second.toLowerCase() ? text : text.charAt(0).toLowerCase() + text.slice(1)
}
