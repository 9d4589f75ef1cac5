import type { MeasureKind } from '../feeder/measure-kinds.ts'
import type { JobKind } from './job-kind.ts'
import type { StepSequence } from './step-sequence.ts'

/** What is put up or changed for a bird to stand or nest on, not over what is energized. */
const PERCH_KINDS: readonly MeasureKind[] = ['raised perch', 'perch deterrent', 'nest platform']

export const PERCH_SEQUENCE_ID = 'perch-replacement'

/**
 * The order of steps for a kind of job: the most particular one, which is that for the fewest kinds;
 * among equals the first by id. Where a round puts up nothing but perches at a pole, that pole gets
 * the order for perches.
 *
 * @param measures what is done for birds at the pole
 */
export function sequenceFor<Item extends { readonly sequence: StepSequence }>(
  kind: JobKind,
  sequences: readonly Item[],
  measures: readonly { readonly kind: MeasureKind }[] = [],
): Item | undefined {
  const fitting = sequences
    .filter(({ sequence }) => sequence.forKinds.includes(kind))
    .toSorted((a, b) => byReach(a.sequence, b.sequence))
  const isPerch = ({ sequence }: Item) => sequence.id === PERCH_SEQUENCE_ID
  const wantsPerch = measures.length > 0 && measures.every(({ kind: one }) => isForPerch(one))
  return fitting.find((item) => isPerch(item) === wantsPerch) ?? fitting[0]
}

const isForPerch = (kind: MeasureKind): boolean => PERCH_KINDS.includes(kind)

function byReach(a: StepSequence, b: StepSequence): number {
  return a.forKinds.length - b.forKinds.length || (a.id < b.id ? -1 : 1)
}
