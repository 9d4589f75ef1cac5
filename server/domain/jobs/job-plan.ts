import { z } from 'zod'
import { ChosenMeasure } from '../avian/programme/programme.ts'
import { Regulator } from '../feeder/equipment.ts'
import { Id } from '../feeder/identifiers.ts'
import { PhaseName } from '../feeder/phases.ts'
import { JOB_KINDS } from './job-kind.ts'
import { StepSequence } from './step-sequence.ts'

/** How sure a figure or a rule is, as everywhere: its source in words. */
const Sourced = { source: z.string() }

export const KitLine = z.object({
  for: z.enum(['bank', 'switching', 'birds', 'labels', 'tools', 'other']),
  what: z.string().min(1).max(200),
  count: z.number().int().min(1),
  /** Left out for what belongs to the whole job. */
  pole: Id.optional(),
  note: z.string().max(400).optional(),
})

export const Hazard = z.object({
  about: z.enum(['approach', 'backfeed', 'access', 'nest', 'weight', 'bypass', 'other']),
  what: z.string().min(1).max(600),
  pole: Id.optional(),
  ...Sourced,
})

/** What meters at the pole should show in one loading of the feeder. Volts are to neutral. */
export const ExpectedReading = z.object({
  phase: PhaseName,
  tap: z.number().int(),
  sourceV: z.number(),
  loadV: z.number(),
  sourceVolts120: z.number(),
  loadVolts120: z.number(),
  /** What the control reads after its ratio and compensation, volts on the 120 base. */
  relayVolts: z.number(),
  amps: z.number(),
})

export const ExpectedCase = z.object({
  caseId: z.string(),
  caseName: z.string(),
  readings: z.array(ExpectedReading),
})

/** What a bypass does to the customers beyond in one loading: taps at neutral, all of the feeder looked at. */
export const BypassedCase = z.object({
  caseId: z.string(),
  caseName: z.string(),
  /** Customers outside the limits of the feeder while it is bypassed, and with the bank in service. */
  customersOutside: z.number().int().min(0),
  customersOutsideInService: z.number().int().min(0),
  /** Where volts are lowest beyond the bank; null where nothing is fed there. */
  lowest: z.object({ pole: Id, phase: PhaseName, volts120: z.number() }).nullable(),
})

/** What would be read if something had been done wrong, found by solving it. */
export const MistakeSign = z.object({
  mistake: z.enum([
    'source and load leads swapped',
    'polarity of one unit reversed',
    'wrong potential ratio',
    'phases rolled',
  ]),
  /** The unit that it is about; left out where it is all of them. */
  phase: PhaseName.optional(),
  /** What is read then, beside what should be: one sentence each. */
  signs: z.array(z.string()).min(1),
})

/** A setting to be made, or found again, at the control. */
export const SettingLine = z.object({
  name: z.string(),
  value: z.string(),
  note: z.string().optional(),
})

export const BankWork = z.object({
  /** As it is to stand in service; its span, phases, rating and settings. Never `bypassed`. */
  regulator: Regulator,
  /** The bank that stands there now, in service or bypassed, where one does. */
  standing: Regulator.optional(),
  /** Nominal volts from phase to neutral at the pole. */
  neutralV: z.number().positive(),
  /** Of the loop that a bypass closes, for what would flow off neutral; the utility sets it. */
  loopOhm: z.number().positive(),
  /** Above sea level, for the approach distance; left out where unknown. */
  elevationM: z.number().min(-500).max(9000).optional(),
})

export const PoleWork = z.object({
  pole: Id,
  /** Bird work that is done on the same visit. */
  measures: z.array(ChosenMeasure),
  /** Pairs of the design species that stand open now, and those that would be left. */
  openPairs: z.number().int().min(0),
  openPairsAfter: z.number().int().min(0),
  /** The steps at this pole, as they were when the job was drafted. */
  sequence: StepSequence,
  sequenceVersion: z.number().int().min(0),
})

/** All that a crew is handed. Made when the job is drafted; from then on it stands as it is. */
export const JobPlan = z.object({
  kind: z.enum(JOB_KINDS),
  poles: z.array(PoleWork).min(1),
  bank: BankWork.optional(),
  kit: z.array(KitLine),
  hazards: z.array(Hazard),
  settings: z.array(SettingLine),
  expected: z.array(ExpectedCase),
  /** The same with the bank as it stands before the work; left out where none stands or all is the same. */
  expectedFound: z.array(ExpectedCase).optional(),
  /** Left out where the work bypasses nothing. */
  whileBypassed: z.array(BypassedCase).optional(),
  mistakes: z.array(MistakeSign),
  /** What could not be found out: "the power flow did not converge at peak, so …". */
  notes: z.array(z.string()),
})

export type KitLine = z.infer<typeof KitLine>
export type Hazard = z.infer<typeof Hazard>
export type ExpectedReading = z.infer<typeof ExpectedReading>
export type ExpectedCase = z.infer<typeof ExpectedCase>
export type BypassedCase = z.infer<typeof BypassedCase>
export type MistakeSign = z.infer<typeof MistakeSign>
export type SettingLine = z.infer<typeof SettingLine>
export type BankWork = z.infer<typeof BankWork>
export type PoleWork = z.infer<typeof PoleWork>
export type JobPlan = z.infer<typeof JobPlan>
