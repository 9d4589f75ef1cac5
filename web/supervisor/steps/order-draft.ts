import { z } from 'zod'
import { JOB_KINDS } from '#domain/jobs/job-kind.ts'
import { type Asked, JUDGES, SIGNERS, type Step, StepSequence } from '#domain/jobs/step-sequence.ts'
import { UNIT_ACTIONS } from '#domain/jobs/unit-action.ts'
import { keptDrafts } from '../../record/kept-drafts.ts'

export const ASK_KINDS = ['number', 'yes or no', 'choice', 'text'] as const

/** What a step asks for, as it is typed: nothing has to be complete yet. */
const AskDraft = z.object({
  id: z.string(),
  what: z.string(),
  kind: z.enum(ASK_KINDS),
  isNeeded: z.boolean(),
  judge: z.enum(JUDGES).nullable(),
  unit: z.string(),
  /** One a line. */
  options: z.string(),
  /** Range of what can be read, as typed; empty where there is none. */
  least: z.string().default(''),
  most: z.string().default(''),
  /** What a no means; empty where the question says it. */
  ifNo: z.string().default(''),
})
export type AskDraft = z.infer<typeof AskDraft>

export const BANK_SORTS = ['a neutral-side switch', 'no neutral-side switch'] as const

const StepDraft = z.object({
  id: z.string(),
  text: z.string(),
  hazard: z.string(),
  isHoldPoint: z.boolean(),
  each: z.enum(['once', 'unit']),
  action: z.enum(UNIT_ACTIONS).nullable(),
  asks: z.array(AskDraft),
  /** Null where it is done at every bank. */
  onlyWith: z.enum(BANK_SORTS).nullable().default(null),
  /** Null where it is not said. */
  readsAsFound: z.boolean().nullable().default(null),
  signedBy: z.enum(SIGNERS),
  mayBeLeftOut: z.boolean(),
})
export type StepDraft = z.infer<typeof StepDraft>

export const BANK_STANDS = ['in service', 'bypassed'] as const

const OrderBody = z.object({
  id: z.string(),
  name: z.string(),
  forKinds: z.array(z.enum(JOB_KINDS)),
  /** Null where it is not said: then the first switch that is worked tells. */
  bankAtStart: z.enum(BANK_STANDS).nullable().default(null),
  source: z.string(),
  steps: z.array(StepDraft),
})
export type OrderBody = z.infer<typeof OrderBody>

export const OrderDraft = z.object({
  body: OrderBody,
  /** Version that the person started from, and what it held then. */
  version: z.number(),
  base: OrderBody,
})
export type OrderDraft = z.infer<typeof OrderDraft>

/** Drafts by the id of the order. */
export const orderDrafts = keptDrafts('crossarm.step-order-drafts', OrderDraft)

export function bodyOfSequence(sequence: StepSequence): OrderBody {
  const { bankAtStart = null, steps } = sequence
  return { ...sequence, bankAtStart, steps: steps.map(draftOfStep) }
}

export function draftOfStep(step: Step): StepDraft {
  return {
    ...step,
    hazard: step.hazard ?? '',
    action: step.action ?? null,
    onlyWith: step.onlyWith ?? null,
    readsAsFound: step.readsAsFound ?? null,
    asks: step.asks.map(draftOfAsked),
  }
}

function draftOfAsked(asked: Asked): AskDraft {
  return {
    id: asked.id,
    what: asked.what,
    kind: asked.kind,
    isNeeded: asked.isNeeded,
    judge: asked.judge ?? null,
    unit: asked.kind === 'number' ? asked.unit : '',
    options: asked.kind === 'choice' ? asked.options.join('\n') : '',
    least: asked.kind === 'number' ? String(asked.least ?? '') : '',
    most: asked.kind === 'number' ? String(asked.most ?? '') : '',
    ifNo: asked.kind === 'yes or no' ? (asked.ifNo ?? '') : '',
  }
}

/** The order as it would be set; what is incomplete is left as it is, for the schema to refuse. */
export function sequenceOfBody({ bankAtStart, steps, ...body }: OrderBody): unknown {
  return {
    ...body,
    ...(bankAtStart !== null && { bankAtStart }),
    steps: steps.map(stepOfDraft),
  }
}

/** The same as a sequence, of a body that was one: nothing in it is incomplete. */
export function sequenceOfDraft(body: OrderBody): StepSequence {
  return StepSequence.parse(sequenceOfBody(body))
}

export function stepOfDraft(draft: StepDraft): unknown {
  const { hazard, action, asks, onlyWith, readsAsFound, ...step } = draft
  return {
    ...step,
    ...(hazard.trim() !== '' && { hazard }),
    ...(action !== null && { action }),
    ...(onlyWith !== null && { onlyWith }),
    ...(readsAsFound !== null && { readsAsFound }),
    asks: asks.map(askedOfDraft),
  }
}

function askedOfDraft(draft: AskDraft): unknown {
  const { judge, unit, options, least, most, ifNo, ...asked } = draft
  return {
    ...asked,
    ...(judge !== null && { judge }),
    ...(asked.kind === 'number' && { unit, ...limit('least', least), ...limit('most', most) }),
    ...(asked.kind === 'yes or no' && ifNo.trim() !== '' && { ifNo }),
    ...(asked.kind === 'choice' && { options: linesOf(options) }),
  }
}

const plainNumber = (typed: string) => typed.trim().replace('−', '-').replace(',', '.')

/** Whether a limit of a reading is left empty or can be used. */
export function isLimit(typed: string): boolean {
  return Number.isFinite(Number(plainNumber(typed)))
}

/** What is no number is left for the schema to refuse. */
function limit(name: 'least' | 'most', typed: string): { readonly [limit: string]: unknown } {
  if (plainNumber(typed) === '') return {}
  return { [name]: isLimit(typed) ? Number(plainNumber(typed)) : typed }
}

export function linesOf(text: string): string[] {
  return text
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '')
}

/** Whether two orders say the same, whatever is left out or written as usual. */
export function isSameOrder(a: OrderBody, b: OrderBody): boolean {
  return JSON.stringify(parsed(a)) === JSON.stringify(parsed(b))
}

function parsed(body: OrderBody): unknown {
  const whole = sequenceOfBody(body)
  return StepSequence.safeParse(whole).data ?? whole
}
