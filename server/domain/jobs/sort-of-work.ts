import type { BankAtStart } from './bank-at-start.ts'
import { JOB_KINDS, type JobKind } from './job-kind.ts'
import { sequenceFor } from './sequence-for.ts'
import type { StepSequence } from './step-sequence.ts'

/** A kind of job and, where it is on a bank that stands, how that is found. */
export interface SortOfWork {
  readonly kind: JobKind
  readonly bankAtStart?: BankAtStart
}

/** As jobs can be drafted; none of the other kinds finds a bank. */
const FOUND: Partial<Readonly<Record<JobKind, readonly BankAtStart[]>>> = {
  'change out a bank': ['in service', 'bypassed'],
  'remove a bank': ['in service', 'bypassed'],
  'take a bank out of service': ['in service'],
  'return a bank to service': ['bypassed'],
  'change settings': ['in service'],
}

/** All that a job can be drafted for. */
export const SORTS_OF_WORK: readonly SortOfWork[] = JOB_KINDS.flatMap(
  (kind): SortOfWork[] => FOUND[kind]?.map((bankAtStart) => ({ kind, bankAtStart })) ?? [{ kind }],
)

/** Work that has an order of steps now and would have none with the others. */
export function workLeftWithout(
  now: readonly { readonly sequence: StepSequence }[],
  then: readonly { readonly sequence: StepSequence }[],
): SortOfWork[] {
  return SORTS_OF_WORK.filter(
    ({ bankAtStart, kind }) =>
      sequenceFor(kind, now, [], bankAtStart) && !sequenceFor(kind, then, [], bankAtStart),
  )
}

/** “remove a bank” where the bank is bypassed. */
export function sortInWords({ bankAtStart, kind }: SortOfWork): string {
  return `“${kind}”${bankAtStart ? ` where the bank is ${bankAtStart}` : ''}`
}
