import type { FeederModel } from './feeder-model.ts'

export type Step = 'source' | 'onward' | 'next-branch' | 'last-branch'

/**
 * The pole that a step along the line leads to: toward the source, onward along the longest way,
 * or to the neighbouring branch where the line before the pole forks. Null where there is none.
 */
export function walkLine(
  { upstreamOf, downstreamOf }: FeederModel,
  pole: string,
  step: Step,
): string | null {
  const upstream = upstreamOf.get(pole)
  if (step === 'source') return upstream ?? null
  if (step === 'onward') return downstreamOf.get(pole)?.[0] ?? null
  const branches = upstream === undefined ? [] : (downstreamOf.get(upstream) ?? [])
  if (branches.length < 2) return null
  const turn = step === 'next-branch' ? 1 : -1
  const index = (branches.indexOf(pole) + turn + branches.length) % branches.length
  return branches[index] ?? null
}
