/** The place is found to that share of the length; less is lost in the last digits of the value. */
const NEAR = 1e-7
const MOST_STEPS = 60
const GOLDEN = (3 - Math.sqrt(5)) / 2

/**
 * Share from 0 to 1 at which a convex function is least: an end where the function does not fall from
 * there. A parabola
 * through the three best places says where to look next, and the golden section wherever the parabola
 * does not close in (Brent, Algorithms for Minimization without Derivatives, 1973, chapter 5; from
 * memory).
 */
export function lowest(valueAt: (share: number) => number): number {
  const atStart = valueAt(0)
  if (valueAt(NEAR) >= atStart) return 0
  const atEnd = valueAt(1)
  if (valueAt(1 - NEAR) >= atEnd) return 1
  let low = 0
  let high = 1
  let best = GOLDEN
  let bestValue = valueAt(best)
  let second = best
  let secondValue = bestValue
  let third = best
  let thirdValue = bestValue
  let step = 0
  let stepBefore = 0
  for (let count = 0; count < MOST_STEPS; count++) {
    const middle = (low + high) / 2
    if (Math.abs(best - middle) + (high - low) / 2 <= 2 * NEAR) break
    const r = (best - second) * (bestValue - thirdValue)
    const q = (best - third) * (bestValue - secondValue)
    const parabolic = ((best - second) * r - (best - third) * q) / (2 * (q - r))
    const closesIn = Math.abs(parabolic) < Math.abs(stepBefore) / 2
    if (closesIn && best + parabolic > low && best + parabolic < high) {
      stepBefore = step
      step = parabolic
    } else {
      stepBefore = best < middle ? high - best : low - best
      step = GOLDEN * stepBefore
    }
    const tried = best + (Math.abs(step) >= NEAR ? step : step < 0 ? -NEAR : NEAR)
    const value = valueAt(tried)
    if (value <= bestValue) {
      if (tried < best) high = best
      else low = best
      third = second
      thirdValue = secondValue
      second = best
      secondValue = bestValue
      best = tried
      bestValue = value
      continue
    }
    if (tried < best) low = tried
    else high = tried
    if (value <= secondValue || second === best) {
      third = second
      thirdValue = secondValue
      second = tried
      secondValue = value
    } else if (value <= thirdValue || third === best || third === second) {
      third = tried
      thirdValue = value
    }
  }
  return best
}
