import type { Work, WorkKindName, WorkProblem, WorkState } from '#contract/work.ts'
import type { CaseSolution } from '#domain/electrical/solution.ts'
import type { SolveOptions } from '#domain/electrical/solve-feeder.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import type { AsBuilt } from '#domain/jobs/as-built.ts'
import type { AsLeft } from '#domain/jobs/as-left.ts'
import type { PlanInput } from '#domain/jobs/draft-plan.ts'
import type { JobPlan } from '#domain/jobs/job-plan.ts'
import type { SiteOutcome } from '#domain/siting/site-feeder.ts'
import type { SiteRequest } from '#domain/siting/site-request.ts'
import type { LayerReading, Stamp, Written } from './ports.ts'

/** Long work as it is asked for. */
export interface WorkOrder {
  /** Made by who asks: asking twice with one id gives one item. */
  readonly id: string
  readonly kind: WorkKindName
  readonly feederId: string | null
  readonly feederVersion: number | null
  /** What is asked for, as plain data. */
  readonly payload: unknown
  /** Bulk that only the worker needs; dropped at the end. */
  readonly material?: string
  /** Items that this one consists of: nobody runs it by itself, it ends with the last of them. */
  readonly parts?: readonly Omit<WorkOrder, 'parts'>[]
}

/** An item of long work as the record has it. */
export interface WorkItem extends Work {
  readonly feederVersion: number | null
  readonly payload: unknown
  readonly attempt: number
  readonly partOf: string | null
}

export interface WorkFollow {
  readonly tell: (done: number, total: number, phase: string) => void
  /** Aborted where the work is cancelled, handed back, or given to another worker. */
  readonly signal: AbortSignal
}

/** How an item ended. */
export interface WorkEnding {
  readonly state: 'done' | 'failed' | 'cancelled'
  readonly result?: unknown
  readonly problem?: WorkProblem
  /**
   * Writes what the work is for, in the transaction that ends the item, and gives the result. It is
   * called once, for the one worker that still holds the item.
   */
  readonly keep?: () => Promise<unknown>
}

/** An item in the hands of a worker. */
export interface ClaimedWork extends WorkItem {
  readonly material: string | null
}

/** How one kind of work is done. A rejection is a fault of the machinery: the item is tried again. */
export type RunWork = (item: ClaimedWork, follow: WorkFollow) => Promise<WorkEnding>

/** Every kind that a worker runs; one that consists of parts is not among them. */
export type WorkKinds = Readonly<Record<Exclude<WorkKindName, 'siting-many'>, RunWork>>

/** Long work, wherever it is done. */
export interface WorkQueue {
  /** The item, be it new or one that was submitted with this id before. */
  submit(order: WorkOrder, stamp: Stamp): Promise<WorkItem>
  find(workId: string): Promise<WorkItem | null>
  /** At once, whoever holds the item: what its worker finds counts no more. */
  cancel(workId: string, stamp: Stamp): Promise<Written<WorkItem>>
  /** The present state first, then the newest after each change, the end last; nothing for an unknown id. */
  follow(workId: string): AsyncIterable<WorkItem>
}

/** The table of all long work. */
export interface WorkStore {
  /** Keeps a new item; one that is there stays as it is. */
  add(order: WorkOrder, stamp: Stamp): Promise<WorkItem>
  find(workId: string): Promise<WorkItem | null>
  /** Newest first, without results. */
  list(kind: WorkKindName, feederId: string, most: number): Promise<WorkItem[]>
  /** Of every kind, newest first, without results; parts of nothing, or all parts of one. */
  latest(partOf: string | null, most: number): Promise<WorkItem[]>
  /** Ids of those that wait, oldest first. */
  waiting(most: number): Promise<string[]>
  /** Null where the item does not wait any more. */
  claim(workId: string, holder: string): Promise<ClaimedWork | null>
  /** Says that the holder lives and how far it is; false where the item is not its own any more. */
  beat(held: HeldWork, progress: Progress): Promise<boolean>
  /** Null where the item is not the holder's any more; then nothing is kept. */
  end(held: HeldWork, ending: WorkEnding & Progress, at: string): Promise<WorkItem | null>
  /** Lets another worker start it over. */
  handBack(held: HeldWork): Promise<void>
  /**
   * The same after a breakdown; at the last that is allowed the item fails with `problem`.
   * With `beat`, only where the holder has not been heard of since.
   */
  breakDown(
    held: HeldWork & { readonly beat?: number },
    problem: WorkProblem,
    at: string,
  ): Promise<void>
  /** All that are in the hands of a worker. */
  held(): Promise<(HeldWork & { readonly beat: number })[]>
  cancel(workId: string, stamp: Stamp): Promise<Written<WorkItem>>
  /** How many there are of each state. */
  countByState(): Promise<Partial<Record<WorkState, number>>>
  /** Told of each change that this process keeps, but for beats. Gives how to stop. */
  onChange(listener: (workId: string, state: WorkState) => void): () => void
}

/** An item in the hands of the worker that took it for this attempt. */
export interface HeldWork {
  readonly id: string
  readonly attempt: number
}

export interface Progress {
  readonly done: number
  readonly total: number
  readonly phase: string
}

/** What a job leaves, on the feeder as recorded. */
export interface BuildInput {
  readonly feeder: Feeder
  readonly plan: JobPlan
  readonly asLeft: AsLeft
}

export interface Built extends Omit<AsBuilt, 'feeder'> {
  /** Null where the equipment stays as it was. */
  readonly equipment: Feeder['equipment'] | null
}

/** Computing away from the thread that answers requests. */
export interface Threads {
  site(feeder: Feeder, request: SiteRequest, follow: WorkFollow): Promise<SiteOutcome>
  /** @param text JSON of the layers by name */
  readLayers(text: string, follow: WorkFollow): Promise<LayerReading>
  /** Does not wait for the long ones. */
  solve(feeder: Feeder, options: SolveOptions): Promise<CaseSolution[]>
  /** The whole plan of a job. Does not wait for the long ones either. */
  draft(input: PlanInput): Promise<JobPlan>
  /** What stands once a job is closed. */
  build(input: BuildInput): Promise<Built>
}
