import { useMemo, useState } from 'react'
import { applyMeasures } from '#domain/avian/measures/apply-measures.ts'
import type { MeasureUse } from '#domain/avian/measures/measure.ts'
import type { ContactPair } from '#domain/avian/pole-top/contact-pair.ts'
import { contactPairs } from '#domain/avian/pole-top/contact-pairs.ts'
import type { Part } from '#domain/avian/pole-top/part.ts'
import { designSpecies, sizeOf } from '#domain/avian/species/shipped-species.ts'
import type { PoleBirds } from '../../birds/use-pole-birds.ts'

export interface MeasureTrial {
  readonly uses: readonly MeasureUse[]
  /** The pole as it would stand. */
  readonly parts: readonly Part[]
  /** What the design species could still bridge. */
  readonly pairs: readonly ContactPair[]
  readonly has: (uses: readonly MeasureUse[]) => boolean
  readonly set: (uses: readonly MeasureUse[]) => void
  readonly toggle: (use: MeasureUse) => void
}

/** Measures that a person tries on a pole; nothing of it is recorded. */
export function useMeasureTrial({ site, settings, assessment }: PoleBirds): MeasureTrial {
  const [uses, set] = useState<readonly MeasureUse[]>([])
  const { poleTop, pairs } = assessment
  const tried = useMemo(() => {
    if (!poleTop || uses.length === 0) return { parts: poleTop?.parts ?? [], pairs }
    const { parts } = applyMeasures(site, poleTop, uses)
    return { parts, pairs: contactPairs(parts, sizeOf(designSpecies(settings), settings)) }
  }, [site, settings, poleTop, pairs, uses])
  return {
    uses,
    ...tried,
    set,
    has: (asked) => asked.every((use) => uses.some((other) => isSame(use, other))),
    toggle: (use) =>
      set(
        uses.some((other) => isSame(use, other))
          ? uses.filter((other) => !isSame(use, other))
          : [...uses, use],
      ),
  }
}

function isSame(one: MeasureUse, other: MeasureUse): boolean {
  return (
    one.kind === other.kind &&
    one.dimensionM === other.dimensionM &&
    one.partIds.join('\n') === other.partIds.join('\n')
  )
}
