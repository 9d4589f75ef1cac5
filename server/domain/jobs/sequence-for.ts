import type { MeasureKind } from '../feeder/measure-kinds.ts'
import { type BankAtStart, bankAtStartOf } from './bank-at-start.ts'
import type { JobKind } from './job-kind.ts'
import type { StepSequence } from './step-sequence.ts'

/** What is put up or changed for a bird to stand or nest on, not over what is energized. */
const PERCH_KINDS: readonly MeasureKind[] = ['raised perch', 'perch deterrent', 'nest platform']

export const PERCH_SEQUENCE_ID = 'perch-replacement'

/**
 * The order of steps for a kind of job: one that begins with the bank as it stands, else one that
 * works nothing at it and so may begin at either; of those the most particular one, which is that
 * for the fewest kinds; among equals the first by id. Where a round puts up nothing but perches at
 * a pole, that pole gets the order for perches.
 *
 * @param measures what is done for birds at the pole
 * @param bankAtStart how the bank of the job stands now; left out where none does, or any order will do
 * @returns undefined where there is none, or none but those for a bank that stands otherwise
 */
export function sequenceFor<Item extends { readonly sequence: StepSequence }>(
  kind: JobKind,
  sequences: readonly Item[],
  measures: readonly { readonly kind: MeasureKind }[] = [],
  bankAtStart?: BankAtStart,
): Item | undefined {
  // Where a bank is set none stands at the start.
  const wanted = kind === 'set a bank' ? undefined : bankAtStart
  const fitting = sequences
    .filter(({ sequence }) => sequence.forKinds.includes(kind) && serves(sequence, wanted))
    .toSorted((a, b) => bySaying(a.sequence, b.sequence, wanted) || byReach(a.sequence, b.sequence))
  const isPerch = ({ sequence }: Item) => sequence.id === PERCH_SEQUENCE_ID
  const wantsPerch = measures.length > 0 && measures.every(({ kind: one }) => isForPerch(one))
  return fitting.find((item) => isPerch(item) === wantsPerch) ?? fitting[0]
}

const isForPerch = (kind: MeasureKind): boolean => PERCH_KINDS.includes(kind)

function serves(sequence: StepSequence, wanted: BankAtStart | undefined): boolean {
  const start = bankAtStartOf(sequence)
  return wanted === undefined || start === null || start === wanted
}

/** One that begins with the bank as it stands comes before one that may begin at either. */
function bySaying(a: StepSequence, b: StepSequence, wanted: BankAtStart | undefined): number {
  if (wanted === undefined) return 0
  return Number(bankAtStartOf(a) === null) - Number(bankAtStartOf(b) === null)
}

function byReach(a: StepSequence, b: StepSequence): number {
  return a.forKinds.length - b.forKinds.length || (a.id < b.id ? -1 : 1)
}
