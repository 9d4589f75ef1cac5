import type { Actor } from '#contract/actor.ts'
import {
  type AsLeftRecord,
  EntriesSent,
  Job,
  type JobAnswer,
  MoveJobBody,
  PutAsLeftBody,
  SendEntriesBody,
} from '#contract/jobs.ts'
import type { AsLeft } from '#domain/jobs/as-left.ts'
import type { JobEntry } from '#domain/jobs/job-entry.ts'
import { type JobRun, runOf } from '#domain/jobs/job-run.ts'
import { moveOf } from '#domain/jobs/job-state.ts'
import type { OutboxItem } from '../../api/outbox.ts'
import { bodyOfInput } from './body-of-input.ts'

/** Where something that was entered is: with the server, on the device, or taken by nobody. */
export type Standing = 'kept' | 'waiting' | 'sending' | 'refused' | 'conflict'

export interface FieldEntry {
  readonly entry: JobEntry
  readonly standing: Standing
  /** Why it is no part of the run, where it is refused. */
  readonly why: readonly string[]
  /** What carries it, as long as the server's answer does not hold it. */
  readonly itemId: string | null
  /** Who sent it, once the server has it. */
  readonly by: Actor | null
}

export interface FieldAsLeft {
  readonly asLeft: AsLeft
  readonly standing: Standing
  readonly itemId: string | null
}

/** A job as the crew sees it: what the server has, and on top of it what waits on the device. */
export interface FieldJob {
  /** Its state is the one after the moves that still wait. */
  readonly job: Job
  /** The newest that the server said; a move made on top of one that waits is brought forward. */
  readonly moveVersion: number
  /** In their order, without those that were refused. */
  readonly entries: readonly FieldEntry[]
  readonly refused: readonly FieldEntry[]
  readonly run: JobRun
  /** The newest of the device, else that of the server. */
  readonly asLeft: FieldAsLeft | null
  /** As the server last said it. */
  readonly keptAsLeft: AsLeftRecord | null
  /** How many things of this job the server has not answered yet. */
  readonly waiting: number
}

/** Folds the answer of the server and the outbox of this job into one picture. */
export function foldFieldJob(answer: JobAnswer, outbox: readonly OutboxItem[]): FieldJob {
  const all = [...keptEntries(answer), ...outboxEntries(answer, outbox)]
  const taken = all.filter(({ standing }) => standing !== 'refused')
  const { run, refused } = runOf(
    answer.job.plan,
    taken.map(({ entry }) => entry),
  )
  const whyById = new Map(refused.map(({ id, why }) => [id, why]))
  const refusedHere = taken.flatMap((field): FieldEntry[] => {
    const why = whyById.get(field.entry.id)
    return why ? [{ ...field, standing: 'refused', why }] : []
  })
  return {
    ...movedJob(answer.job, outbox),
    entries: taken.filter(({ entry }) => !whyById.has(entry.id)),
    refused: [...all.filter(({ standing }) => standing === 'refused'), ...refusedHere],
    run,
    asLeft: newestAsLeft(answer.asLeft, outbox),
    keptAsLeft: answer.asLeft,
    waiting: outbox.filter(({ state }) => state === 'waiting' || state === 'sending').length,
  }
}

/** Whether the outbox brought something that this answer of the server does not hold yet. */
export function isAnswerBehind(answer: JobAnswer, outbox: readonly OutboxItem[]): boolean {
  return outbox.some((item) => {
    if (item.state !== 'kept') return false
    if (item.name === 'moveJob') return versionOf(item.answer) > answer.job.version
    if (item.name === 'putAsLeft') return versionOf(item.answer) > (answer.asLeft?.version ?? 0)
    if (item.name !== 'sendEntries') return false
    const known = new Set(answer.entries.map(({ entry }) => entry.id))
    return entriesOf(item).some(({ id }) => !known.has(id) && refusalOf(item, id) === null)
  })
}

function keptEntries({ entries }: JobAnswer): FieldEntry[] {
  return entries.map(({ entry, by }) => ({ entry, standing: 'kept', why: [], itemId: null, by }))
}

function outboxEntries(answer: JobAnswer, outbox: readonly OutboxItem[]): FieldEntry[] {
  const known = new Set(answer.entries.map(({ entry }) => entry.id))
  return outbox
    .filter(({ name, setAsideAt }) => name === 'sendEntries' && setAsideAt === undefined)
    .flatMap((item) =>
      entriesOf(item)
        .filter(({ id }) => !known.has(id))
        .map((entry): FieldEntry => {
          const refusal = refusalOf(item, entry.id)
          const common = { entry, itemId: item.id, by: null }
          return refusal === null
            ? { ...common, standing: item.state, why: [] }
            : { ...common, standing: 'refused', why: [refusal] }
        }),
    )
}

function entriesOf({ input }: OutboxItem): JobEntry[] {
  return SendEntriesBody.safeParse(bodyOfInput(input)).data?.entries ?? []
}

/** Why the server did not take an entry, or null. */
function refusalOf({ state, problem, answer }: OutboxItem, entryId: string): string | null {
  const outcomes = EntriesSent.safeParse(answer).data?.outcomes ?? []
  const outcome = outcomes.find(({ id }) => id === entryId)
  if (outcome?.outcome === 'refused') return outcome.why
  if (state !== 'refused' || outcome) return null
  return problem ?? 'The server did not take it.'
}

/** The job with the moves that it has not heard of, and the version that the next one is made on. */
function movedJob(kept: Job, outbox: readonly OutboxItem[]): Pick<FieldJob, 'job' | 'moveVersion'> {
  let job = kept
  let moveVersion = kept.version
  for (const item of outbox) {
    if (item.name !== 'moveJob' || item.state === 'refused') continue
    if (item.state === 'kept') {
      const answered = Job.safeParse(item.answer).data
      if (!answered || answered.version <= job.version) continue
      job = answered
      moveVersion = answered.version
      continue
    }
    const move = MoveJobBody.safeParse(bodyOfInput(item.input)).data
    if (!move || !moveOf(job.state, move.to)) continue
    job = { ...job, state: move.to, stateSince: item.enteredAt, reason: move.reason ?? '' }
  }
  return { job, moveVersion }
}

function newestAsLeft(kept: AsLeftRecord | null, outbox: readonly OutboxItem[]) {
  const items = outbox.filter(({ name, state }) => name === 'putAsLeft' && state !== 'refused')
  const newest = items.findLast(
    (item) => item.state !== 'kept' || versionOf(item.answer) > (kept?.version ?? 0),
  )
  const unsent = newest && PutAsLeftBody.safeParse(bodyOfInput(newest.input)).data
  if (newest && unsent) {
    return { asLeft: unsent.asLeft, standing: newest.state, itemId: newest.id }
  }
  return kept && { asLeft: kept.asLeft, standing: 'kept' as const, itemId: null }
}

function versionOf(answer: unknown): number {
  const isVersioned = typeof answer === 'object' && answer !== null && 'version' in answer
  return isVersioned && typeof answer.version === 'number' ? answer.version : 0
}
