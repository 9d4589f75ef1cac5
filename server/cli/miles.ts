/** International mile (exact by definition). Kept here, as a command loads the domain only when it solves. */
const M_PER_MILE = 1609.344

export function miles(distanceM: number): number {
  return distanceM / M_PER_MILE
}
