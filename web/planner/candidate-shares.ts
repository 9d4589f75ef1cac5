import type { CandidateScore } from '#domain/siting/site-result.ts'

/**
 * How well each tried pole did, from 0 (worst) to 1 (best), by span: customers left outside first;
 * where these are all the same, the lowest voltage.
 */
export function candidateShares(candidates: readonly CandidateScore[]): Map<string, number> {
  const outside = candidates.map(({ customersOutside }) => customersOutside)
  const volts = candidates.map(({ lowestVolts120 }) => lowestVolts120)
  const byOutside = spread(outside)
  const byVolts = spread(volts)
  return new Map(
    candidates.map(({ span, customersOutside, lowestVolts120 }) => [
      span,
      byOutside.width > 0
        ? 1 - (customersOutside - byOutside.least) / byOutside.width
        : byVolts.width > 0
          ? (lowestVolts120 - byVolts.least) / byVolts.width
          : 1,
    ]),
  )
}

function spread(values: readonly number[]): { least: number; width: number } {
  const least = Math.min(...values)
  return { least, width: Math.max(...values) - least }
}
