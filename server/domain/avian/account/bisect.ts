/** Halvings that bring any interval of doubles down to neighbouring numbers. */
const MOST_HALVINGS = 200

/**
 * Where a falling function passes a level, between two places that lie on either side of it.
 *
 * @param falling non-increasing over the interval
 */
export function bisect(
  falling: (at: number) => number,
  level: number,
  from: number,
  to: number,
): number {
  let [low, high] = [from, to]
  for (let halving = 0; halving < MOST_HALVINGS; halving += 1) {
    const middle = (low + high) / 2
    if (middle === low || middle === high) return middle
    if (falling(middle) > level) low = middle
    else high = middle
  }
  return (low + high) / 2
}
