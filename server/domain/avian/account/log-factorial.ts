/** Natural logarithm of n!, by its definition: counts of dead birds are small. */
export function logFactorial(n: number): number {
  let sum = 0
  for (let factor = 2; factor <= n; factor += 1) sum += Math.log(factor)
  return sum
}
