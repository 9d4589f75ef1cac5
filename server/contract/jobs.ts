import { z } from 'zod'
import { Id, IsoDate } from '#domain/feeder/identifiers.ts'
import { AsLeft, SettingsAsLeft } from '#domain/jobs/as-left.ts'
import { JobEntry } from '#domain/jobs/job-entry.ts'
import { JOB_KINDS } from '#domain/jobs/job-kind.ts'
import { JobPlan } from '#domain/jobs/job-plan.ts'
import { JOB_STATES } from '#domain/jobs/job-state.ts'
import { StepSequence } from '#domain/jobs/step-sequence.ts'
import { Actor } from './actor.ts'
import { Kept, Version } from './versioned.ts'

export const JobParams = z.object({ jobId: Id })
export const JobsQuery = z.object({
  feederId: Id.optional(),
  /** Only what is not closed. */
  open: z.enum(['yes']).optional(),
})

/** Where a job comes from. */
export const JobOrigin = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('proposal'), proposalId: Id }),
  z.object({
    kind: z.literal('programme'),
    programmeId: Id,
    /** Index of the round. */
    round: z.number().int().min(0),
  }),
  z.object({
    kind: z.literal('by hand'),
    jobKind: z.enum(JOB_KINDS),
    poles: z.array(Id).min(1).max(60),
    /** The bank that the work is on, where it is on one. */
    regulatorId: Id.optional(),
    /** What its controls are to be set to; what is left out stays as it is. */
    settings: SettingsAsLeft.partial().optional(),
  }),
])

/** What a person says of a job beside its plan. */
export const JobHead = z.object({
  title: z.string().trim().min(1).max(120),
  note: z.string().max(4000).default(''),
  dueOn: IsoDate.optional(),
  /** Whom it is given to, in words: "north truck". */
  crew: z.string().trim().max(120).default(''),
})

export const DraftJobBody = JobHead.extend({
  origin: JobOrigin,
  /** Which bank of the proposal, where it has two. */
  bank: z.number().int().min(0).max(1).default(0),
  loopOhm: z.number().positive().max(100).optional(),
  elevationM: z.number().min(-500).max(9000).optional(),
  /** Whether the units that are set get a switch at the SL terminal; left out: as the bank that stands, else solid. */
  neutralSide: z.enum(['solid', 'switched']).optional(),
  /** Open pairs of the poles: closed on the same visit or left. Left out: as is usual for the kind of work. */
  birdWork: z.enum(['take along', 'leave']).optional(),
})
export const ChangeJobBody = JobHead.extend({ version: Version })
export const MoveJobBody = z.object({
  version: Version,
  to: z.enum(JOB_STATES),
  reason: z.string().trim().max(2000).optional(),
  /** Time on the device, for what was entered without connection. */
  deviceAt: z.iso.datetime().optional(),
})

export const Job = JobHead.extend({
  id: Id,
  feederId: Id,
  /** Version of the feeder that the plan was made on, and the one that closing it wrote. */
  feederVersion: z.number().int().min(1),
  feederVersionAfter: z.number().int().min(1).nullable(),
  origin: JobOrigin,
  state: z.enum(JOB_STATES),
  /** Since when it is in this state, and why where it was returned. */
  stateSince: z.iso.datetime(),
  reason: z.string(),
  /** Of a closed job: what the record did not take over as it was left, and what to look at. */
  closingNotes: z.array(z.string()).optional(),
  plan: JobPlan,
  ...Kept,
})
/** A job in a list. */
export const JobSummary = Job.omit({ plan: true }).extend({
  kind: z.enum(JOB_KINDS),
  poles: z.array(Id),
  /** Steps passed of all there are, left out ones among them, where it is in the field or after. */
  stepsDone: z.number().int(),
  /** How many of those passed were left out; jobs closed before this was counted lack it. */
  stepsLeftOut: z.number().int().optional(),
  stepsAll: z.number().int(),
  /** What the crew said, and bird work said to be done although its step was left out. */
  deviations: z.number().int(),
})

/** An entry as it is kept: with who sent it and when the server got it. */
export const KeptEntry = z.object({ entry: JobEntry, by: Actor, keptAt: z.iso.datetime() })
export const SendEntriesBody = z.object({ entries: z.array(JobEntry).min(1).max(200) })
/** What became of each entry, in the order in which they were sent. */
export const EntryOutcome = z.discriminatedUnion('outcome', [
  z.object({ id: Id, outcome: z.literal('kept') }),
  z.object({ id: Id, outcome: z.literal('had already') }),
  /** The run does not allow it; it is not part of the record. */
  z.object({ id: Id, outcome: z.literal('refused'), why: z.string() }),
])
export const EntriesSent = z.object({ outcomes: z.array(EntryOutcome) })

/** Version 0 says that the person saw none. */
export const PutAsLeftBody = z.object({
  version: z.number().int().min(0),
  asLeft: AsLeft,
  deviceAt: z.iso.datetime().optional(),
})
export const AsLeftRecord = z.object({ jobId: Id, feederId: Id, asLeft: AsLeft, ...Kept })
export const JobAnswer = z.object({
  job: Job,
  entries: z.array(KeptEntry),
  asLeft: AsLeftRecord.nullable(),
})

export const SequenceParams = z.object({ sequenceId: Id })
/** Version 0: as it comes with the program. */
export const SequenceRecord = z.object({
  sequence: StepSequence,
  version: z.number().int().min(0),
  changedBy: Actor.nullable(),
  changedAt: z.iso.datetime().nullable(),
})
export const PutSequenceBody = z.object({
  version: z.number().int().min(0),
  sequence: StepSequence,
})

export type JobOrigin = z.infer<typeof JobOrigin>
export type JobHead = z.infer<typeof JobHead>
export type DraftJobBody = z.infer<typeof DraftJobBody>
export type ChangeJobBody = z.infer<typeof ChangeJobBody>
export type MoveJobBody = z.infer<typeof MoveJobBody>
export type Job = z.infer<typeof Job>
export type JobSummary = z.infer<typeof JobSummary>
export type KeptEntry = z.infer<typeof KeptEntry>
export type EntryOutcome = z.infer<typeof EntryOutcome>
export type PutAsLeftBody = z.infer<typeof PutAsLeftBody>
export type AsLeftRecord = z.infer<typeof AsLeftRecord>
export type JobAnswer = z.infer<typeof JobAnswer>
export type SequenceRecord = z.infer<typeof SequenceRecord>
export type PutSequenceBody = z.infer<typeof PutSequenceBody>
