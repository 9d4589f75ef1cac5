import type {
  AsLeftRecord,
  Job,
  JobHead,
  JobOrigin,
  JobSummary,
  KeptEntry,
  SequenceRecord,
} from '#contract/jobs.ts'
import type { AsLeft } from '#domain/jobs/as-left.ts'
import type { JobEntry } from '#domain/jobs/job-entry.ts'
import type { JobPlan } from '#domain/jobs/job-plan.ts'
import type { JobState } from '#domain/jobs/job-state.ts'
import type { StepSequence } from '#domain/jobs/step-sequence.ts'
import type { Purgeable, Stamp, Written } from './ports.ts'

export type {
  AsLeftRecord,
  Job,
  JobHead,
  JobOrigin,
  JobSummary,
  KeptEntry,
  SequenceRecord,
} from '#contract/jobs.ts'

/** How far a job is. */
export type Progress = Pick<JobSummary, 'stepsDone' | 'stepsLeftOut' | 'stepsAll' | 'deviations'>

/** A job as it begins: drafted. */
export interface NewJob {
  readonly id: string
  readonly feederId: string
  readonly feederVersion: number
  readonly head: JobHead
  readonly origin: JobOrigin
  readonly plan: JobPlan
  readonly stepsAll: number
}

export interface JobMoved {
  readonly state: JobState
  /** Empty where none was needed. */
  readonly reason: string
  readonly feederVersionAfter: number | null
  readonly closingNotes?: readonly string[]
  /** Of a closed job, where it does not change any more. */
  readonly progress?: Progress
}

/** A job in a list, without what follows from its entries. */
export type ListedJob = Omit<JobSummary, keyof Progress> & {
  readonly entries: number
  /** As it was when the job was drafted or closed. */
  readonly progress: Progress
}

/** `version` is the one that the person saw. */
export interface JobStore extends Purgeable {
  /** Those not deleted, without their plans, due first; of all feeders where none is named. */
  list(feederId?: string): Promise<ListedJob[]>
  /** Deleted ones too. */
  find(jobId: string): Promise<Job | null>
  add(job: NewJob, stamp: Stamp): Promise<Job>
  change(jobId: string, version: number, head: JobHead, stamp: Stamp): Promise<Written<Job>>
  move(jobId: string, version: number, moved: JobMoved, stamp: Stamp): Promise<Written<Job>>
  delete(jobId: string, version: number, stamp: Stamp): Promise<Written<Job>>
  restore(jobId: string, version: number, stamp: Stamp): Promise<Written<Job>>
  /** In the order in which they were kept. */
  entries(jobId: string): Promise<KeptEntry[]>
  /** Behind those that are there; the time on the device is that of each entry. */
  addEntries(
    job: Pick<Job, 'id' | 'feederId'>,
    entries: readonly JobEntry[],
    stamp: Stamp,
  ): Promise<void>
}

export interface AsLeftStore {
  find(jobId: string): Promise<AsLeftRecord | null>
  /** Version 0 says that the person saw none. */
  put(
    job: Pick<Job, 'id' | 'feederId'>,
    version: number,
    asLeft: AsLeft,
    stamp: Stamp,
  ): Promise<Written<AsLeftRecord>>
}

export interface StepSequenceStore {
  /** What the utility has set, by id. */
  list(): Promise<SequenceRecord[]>
  /** Version 0 says that the person saw the one that comes with the program, or none. */
  put(version: number, sequence: StepSequence, stamp: Stamp): Promise<Written<SequenceRecord>>
  delete(id: string, version: number, stamp: Stamp): Promise<Written<SequenceRecord>>
}

/** What is kept about crew work. */
export interface JobStores {
  readonly jobs: JobStore
  readonly asLeft: AsLeftStore
  readonly stepSequences: StepSequenceStore
}
