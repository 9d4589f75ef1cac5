import { z } from 'zod'
import { Position } from '../feeder/geometry.ts'
import { Id } from '../feeder/identifiers.ts'
import { PhaseName } from '../feeder/phases.ts'

/** A value that was read off or chosen; numbers in the unit that the step names. */
export const ReadValue = z.union([z.number(), z.boolean(), z.string().max(400)])

const common = {
  /** Made on the device, so that an entry sent twice is one. */
  id: Id,
  /** Time on the device. */
  at: z.iso.datetime(),
  pole: Id,
}

/**
 * One line of what was done in the field, as it was entered; never changed. The run of a job
 * (`job-run.ts`) follows from its entries in their order.
 */
export const JobEntry = z.discriminatedUnion('kind', [
  z.object({
    ...common,
    kind: z.literal('step done'),
    stepId: Id,
    /** The unit, where the step is done for each. */
    phase: PhaseName.optional(),
    values: z.record(z.string(), ReadValue).default({}),
    /** Names of who signs. */
    signedBy: z.array(z.string().trim().min(1).max(120)).min(1).max(4),
    remark: z.string().max(2000).optional(),
  }),
  z.object({
    ...common,
    kind: z.literal('step left out'),
    stepId: Id,
    phase: PhaseName.optional(),
    why: z.string().trim().min(3).max(600),
    signedBy: z.array(z.string().trim().min(1).max(120)).min(1).max(4),
  }),
  z.object({ ...common, kind: z.literal('remark'), text: z.string().trim().min(1).max(4000) }),
  /** What was done otherwise than planned; the supervisor reads these first. */
  z.object({ ...common, kind: z.literal('deviation'), text: z.string().trim().min(1).max(4000) }),
  z.object({
    ...common,
    kind: z.literal('photo'),
    /** Id that its file is attached to the job under. */
    attachmentId: Id,
    what: z.string().trim().max(400),
    /** Of the picture itself, where it says so. */
    takenAt: z.iso.datetime().optional(),
    takenPosition: Position.optional(),
    /** From the pole to there, metres. */
    offPoleM: z.number().min(0).optional(),
  }),
])

export type ReadValue = z.infer<typeof ReadValue>
export type JobEntry = z.infer<typeof JobEntry>
export type StepDone = Extract<JobEntry, { kind: 'step done' }>
export type StepLeftOut = Extract<JobEntry, { kind: 'step left out' }>
