const LEVELS = ['▁', '▂', '▃', '▄', '▅', '▆', '▇', '█'] as const
/** Where there is nothing to draw. */
const ABSENT = '·'

export interface Sample {
  readonly distanceM: number
  readonly value: number
}

export interface SparklineFrame {
  readonly from: number
  readonly to: number
  readonly lengthM: number
  readonly width: number
}

/**
 * A row of blocks over distance. Samples in order of distance; between two of them the value is
 * drawn straight, beyond the last it is absent. Values beyond the frame sit on its edge.
 */
export function sparkline(samples: readonly Sample[], frame: SparklineFrame): string {
  return Array.from({ length: frame.width }, (_, column) => {
    const distanceM = (frame.lengthM * column) / Math.max(1, frame.width - 1)
    const value = valueAt(samples, distanceM)
    return value === null ? ABSENT : blockOf(value, frame)
  }).join('')
}

function blockOf(value: number, { from, to }: SparklineFrame): string {
  const share = to > from ? (value - from) / (to - from) : 0.5
  const level = Math.floor(share * LEVELS.length)
  return LEVELS[Math.max(0, Math.min(LEVELS.length - 1, level))] ?? ABSENT
}

/** The last of several samples at one place counts: it is the load side of a regulator there. */
function valueAt(samples: readonly Sample[], distanceM: number): number | null {
  // A column may fall short of the last sample by rounding alone.
  const slackM = 1e-6
  let before: Sample | null = null
  for (const sample of samples) {
    if (sample.distanceM <= distanceM + slackM) {
      before = sample
      continue
    }
    if (before === null) return null
    const share = (distanceM - before.distanceM) / (sample.distanceM - before.distanceM)
    return before.value + share * (sample.value - before.value)
  }
  return before && distanceM <= before.distanceM + slackM ? before.value : null
}
