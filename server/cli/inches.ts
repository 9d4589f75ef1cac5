/** International inch (exact by definition). Kept here, as a command loads the domain only when it computes. */
const M_PER_IN = 0.0254

export function inches(lengthM: number): number {
  return lengthM / M_PER_IN
}
