import { z } from 'zod'
import { Id } from '../feeder/identifiers.ts'
import { JOB_KINDS } from './job-kind.ts'
import { UNIT_ACTIONS } from './unit-action.ts'

/**
 * By which rule of the trade a reading is judged; see `judge-reading.ts`. What has none is kept as
 * it was entered.
 */
export const JUDGES = [
  'position indicator at neutral',
  'neutral lamp steady',
  'control readout at neutral',
  'volts across at neutral',
  'resolution of the meter',
  'source volts as expected',
  'load volts as expected',
  'current as expected',
  'carries a share of the current',
  'carries the current',
  'rating above the current',
  'volts rise with raises',
  'volts fall with lowers',
  'torque of shear-head fasteners',
  'torque marked on the connector',
  'serial number of one unit',
  'must be yes',
] as const

export const MOST_IF_NO_LETTERS = 200

const common = {
  /** Unique within its step. */
  id: Id,
  what: z.string().trim().min(1).max(200),
  isNeeded: z.boolean().default(true),
  judge: z.enum(JUDGES).optional(),
}

/** One thing that a step asks for. */
export const Asked = z.discriminatedUnion('kind', [
  z.object({
    ...common,
    kind: z.literal('number'),
    unit: z.string().max(20),
    /** What lies outside cannot be read there, and is refused at the step. */
    least: z.number().optional(),
    most: z.number().optional(),
  }),
  z.object({
    ...common,
    kind: z.literal('yes or no'),
    /** What a no means where yes is asked for, and what to do then. */
    ifNo: z.string().trim().min(1).max(MOST_IF_NO_LETTERS).optional(),
  }),
  z.object({
    ...common,
    kind: z.literal('choice'),
    options: z.array(z.string().min(1).max(80)).min(2).max(12),
  }),
  z.object({ ...common, kind: z.literal('text') }),
])

/** Whose name stands under a step. */
export const SIGNERS = ['one of the crew', 'two of the crew', 'person in charge'] as const

export const Step = z.object({
  /** Unique within its sequence; a run refers to it. */
  id: Id,
  text: z.string().trim().min(1).max(600),
  hazard: z.string().trim().max(400).optional(),
  /** Nothing after it is done before it is passed with its readings. */
  isHoldPoint: z.boolean().default(false),
  /** Once at the pole, or once for each unit of the bank. */
  each: z.enum(['once', 'unit']).default('once'),
  action: z.enum(UNIT_ACTIONS).optional(),
  asks: z.array(Asked).max(12).default([]),
  /** Left out of the steps of a job whose bank is not so. */
  onlyWith: z.enum(['a neutral-side switch', 'no neutral-side switch']).optional(),
  /** Read before anything is changed, and so held against the bank as it stands. */
  readsAsFound: z.boolean().optional(),
  signedBy: z.enum(SIGNERS).default('one of the crew'),
  /** A step that may be left out, with a reason; a hold point never. */
  mayBeLeftOut: z.boolean().default(false),
})

/** The order of work at one pole. Data: the utility's own procedure governs and may replace it. */
export const StepSequence = z.object({
  id: Id,
  name: z.string().trim().min(1).max(120),
  forKinds: z.array(z.enum(JOB_KINDS)).min(1),
  /**
   * How the bank stands before the first step, where one stands. Orders kept from before there was
   * this member say it by their first switch.
   */
  bankAtStart: z.enum(['in service', 'bypassed']).optional(),
  /** Where it comes from and how sure that is. */
  source: z.string().trim().max(600),
  steps: z.array(Step).min(1).max(120),
})

export type JudgeName = (typeof JUDGES)[number]
export type Asked = z.infer<typeof Asked>
export type Signer = (typeof SIGNERS)[number]
export type Step = z.infer<typeof Step>
export type StepSequence = z.infer<typeof StepSequence>
