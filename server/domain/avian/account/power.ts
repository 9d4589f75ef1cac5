/** Standard normal quantiles: 5 % two-sided, and a power of 80 %. */
const Z_TWO_SIDED_5_PERCENT = 1.959964
const Z_POWER_80_PERCENT = 0.841621

/**
 * Events before that are needed to show that the rate fell to `ratio` of what it was (5 % two-sided,
 * power 80 %): with the square root of a Poisson count, whose variance is 1/4 whatever its mean,
 * N₁ = (z₁ + z₂)²·(1 + 1/e) / (4·(1 − √R)²), where e is pole-years after per pole-year before.
 * The exact conditional test is more careful with small counts and needs somewhat more.
 *
 * Source: square-root transformation after M. S. Bartlett, Supplement to the JRSS 3 (1936) 68–78;
 * the test of two counts by it after M. D. Huffman, Biometrics 40 (1984) 224–226; from memory.
 *
 * @param ratio below 1
 * @param exposureAfter pole-years after for each pole-year before
 */
export function eventsToShow(
  ratio: number,
  exposureAfter = 1,
): { readonly before: number; readonly after: number } {
  if (!(ratio >= 0 && ratio < 1) || !(exposureAfter > 0)) {
    throw new Error(
      `Expected a ratio from 0 to below 1 and pole-years above 0, got ${ratio} and ${exposureAfter}.`,
    )
  }
  const z = Z_TWO_SIDED_5_PERCENT + Z_POWER_80_PERCENT
  const before = (z * z * (1 + 1 / exposureAfter)) / (4 * (1 - Math.sqrt(ratio)) ** 2)
  return { before, after: before * ratio * exposureAfter }
}
