import type { PoleSite, PoleTop } from '../pole-top/pole-top.ts'
import type { BirdSize } from '../species/bird-species.ts'
import { applyMeasures } from './apply-measures.ts'
import { framingChanges } from './framing-changes.ts'
import type { MeasureUse } from './measure.ts'
import type { FramingUse } from './reframe-site.ts'

export interface FramingVariant {
  readonly changes: readonly FramingUse[]
  /** As framed after the changes, with what stands already. */
  readonly top: PoleTop
}

/**
 * Ways to frame the pole anew: each change by itself, and a longer arm with each of the others,
 * whose dimension then follows from the longer arm.
 */
export function framingVariants(
  site: PoleSite,
  top: PoleTop,
  standing: readonly MeasureUse[],
  size: BirdSize,
): FramingVariant[] {
  const after = (changes: readonly FramingUse[]): FramingVariant => ({
    changes,
    top: applyMeasures(site, top, [...standing, ...changes]),
  })
  const single = framingChanges(after([]).top, size).map((change) => after([change]))
  const longer = single.find(({ changes: [change] }) => change?.kind === 'longer arm')
  if (!longer) return single
  const second = framingChanges(longer.top, size).filter(({ kind }) => kind !== 'longer arm')
  return [...single, ...second.map((change) => after([...longer.changes, change]))]
}
