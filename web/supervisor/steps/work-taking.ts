import type { JobKind } from '#domain/jobs/job-kind.ts'
import { PERCH_SEQUENCE_ID, sequenceFor } from '#domain/jobs/sequence-for.ts'
import { SORTS_OF_WORK, type SortOfWork } from '#domain/jobs/sort-of-work.ts'
import type { StepSequence } from '#domain/jobs/step-sequence.ts'
import { KIND_WORDS } from '../../jobs/job-words.ts'

type InUse = readonly { readonly sequence: StepSequence }[]

/** The sorts of job that would take this order if they were drafted now, as they stand in a sentence. */
export function workTaking(id: string, orders: InUse): string[] {
  const taken = SORTS_OF_WORK.filter(
    ({ kind, bankAtStart }) => sequenceFor(kind, orders, [], bankAtStart)?.sequence.id === id,
  ).map(inWords)
  return id === PERCH_SEQUENCE_ID ? [...taken, 'retrofit round that puts up perches alone'] : taken
}

const isFoundBothWays = (kind: JobKind): boolean =>
  SORTS_OF_WORK.filter((sort) => sort.kind === kind).length > 1

function inWords({ kind, bankAtStart }: SortOfWork): string {
  const words = KIND_WORDS[kind].toLowerCase()
  if (bankAtStart === undefined || !isFoundBothWays(kind)) return words
  return `${words} that is ${bankAtStart === 'bypassed' ? 'out of service' : 'in service'}`
}
