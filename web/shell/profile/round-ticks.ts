const STEPS = [1, 2, 2.5, 5, 10]

/** Round values within a range, at most this many: 0, 5, 10, … */
export function roundTicks(from: number, to: number, atMost: number): number[] {
  if (!(to > from) || atMost < 1) return [from]
  const rough = (to - from) / atMost
  const power = 10 ** Math.floor(Math.log10(rough))
  const step = power * (STEPS.find((factor) => factor * power >= rough) ?? 10)
  const ticks: number[] = []
  for (let index = Math.ceil(from / step); index * step <= to + step * 1e-9; index += 1) {
    ticks.push(Number((index * step).toPrecision(12)))
  }
  return ticks
}
