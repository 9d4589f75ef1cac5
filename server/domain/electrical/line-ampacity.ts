import type { LineType } from '../feeder/line-type.ts'
import { CONDUCTORS } from './conductor-table.ts'

/**
 * Continuous current limit of a line type, amperes: the recorded one, else the least that the
 * conductor table gives for its phases. NaN where neither is known.
 */
export function lineAmpacityA(lineType: LineType): number {
  if (lineType.ampacityA !== undefined) return lineType.ampacityA
  if (lineType.kind === 'matrix') return Number.NaN
  const phases = lineType.positions.filter(({ role }) => role !== 'N')
  if (phases.length === 0) return Number.NaN
  return Math.min(
    ...phases.map(({ conductor }) => CONDUCTORS.get(conductor)?.ampacityA ?? Number.NaN),
  )
}
