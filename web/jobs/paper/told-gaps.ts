import type { NumberedPair } from '../../birds/pair-labels.ts'

export interface ToldGaps {
  /** Without a hole in their numbers, up to the last that is drawn. */
  readonly gaps: readonly (NumberedPair & { readonly isDrawn: boolean })[]
  /** How many wider ones come after these. */
  readonly more: number
}

/** What is said beneath a drawing that has room for some of the gaps alone. */
export function toldGaps(all: readonly NumberedPair[], drawn: readonly NumberedPair[]): ToldGaps {
  const last = Math.max(0, ...drawn.map(({ number }) => number))
  const isDrawn = (number: number) => drawn.some((each) => each.number === number)
  const gaps = all
    .filter(({ number }) => number <= last)
    .map((gap) => ({ ...gap, isDrawn: isDrawn(gap.number) }))
  return { gaps, more: all.length - gaps.length }
}
