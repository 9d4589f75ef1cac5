export interface SuspectedParts {
  readonly suspectedPartA: string
  readonly suspectedPartB: string
}

/** The two parts after one more was pressed: pressed again it is let go, and of three the oldest goes. */
export function pickPart(
  { suspectedPartA, suspectedPartB }: SuspectedParts,
  partId: string,
): SuspectedParts {
  if (partId === suspectedPartA) return { suspectedPartA: suspectedPartB, suspectedPartB: '' }
  if (partId === suspectedPartB) return { suspectedPartA, suspectedPartB: '' }
  if (suspectedPartA === '') return { suspectedPartA: partId, suspectedPartB }
  if (suspectedPartB === '') return { suspectedPartA, suspectedPartB: partId }
  return { suspectedPartA: suspectedPartB, suspectedPartB: partId }
}
