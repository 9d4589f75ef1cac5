import { Equipment } from '#domain/feeder/equipment.ts'
import { Pole } from '#domain/feeder/pole.ts'
import type { Phase } from '#domain/units/phases.ts'
import type { Part } from '../../../../server/domain/avian/pole-top/part.ts'
import type { PoleSite, PoleTop } from '../../../../server/domain/avian/pole-top/pole-top.ts'
import { PoleTopChoice } from '../../../../server/domain/avian/pole-top/pole-top-choice.ts'
import { poleTopOf } from '../../../../server/domain/avian/pole-top/pole-top-of.ts'

export const IN = 0.0254

interface SiteWords {
  readonly framing?: string
  readonly phases?: string
  readonly tap?: string
  readonly material?: Pole['material']
  readonly equipment?: readonly object[]
  readonly choice?: Partial<PoleTopChoice>
  readonly measured?: Partial<Pole>
}

/** A site as the record would give it; a wood pole with three phases unless said otherwise. */
export function siteOf(words: SiteWords): PoleSite {
  const { framing, phases = 'ABC', tap = '', material = 'wood', equipment = [], choice } = words
  return {
    pole: Pole.parse({ id: 'P', at: [-107, 43], material, framing, ...words.measured }),
    phases: [...phases] as Phase[],
    tapPhases: [...tap] as Phase[],
    equipment: equipment.map((item) => Equipment.parse({ pole: 'P', ...item })),
    choice: choice ? PoleTopChoice.parse({ pole: 'P', ...choice }) : null,
  }
}

export function topOf(words: SiteWords): PoleTop {
  const top = poleTopOf(siteOf(words))
  if (!top) throw new Error('Expected a pole top, got none.')
  return top
}

export function partOf({ parts }: Pick<PoleTop, 'parts'>, id: string): Part {
  const part = parts.find((each) => each.id === id)
  if (!part) {
    throw new Error(`Expected a part “${id}”, got ${parts.map((each) => each.id).join(', ')}.`)
  }
  return part
}

/** How often each kind of part occurs, counted over labels that match. */
export function countOf({ parts }: Pick<PoleTop, 'parts'>, label: RegExp): number {
  return parts.filter((part) => label.test(part.label) && part.potential !== 'none').length
}

export const transformer = (phases: string) => [
  { id: 'T', kind: 'transformer', phases, ratingKva: 25 },
  { id: 'CO', kind: 'cutout', phases },
  { id: 'LA', kind: 'arrester', phases },
]

export const regulator = (phases = 'ABC') => ({
  id: 'R',
  kind: 'regulator',
  phases,
  span: 'S',
  windingType: 'B',
  ptRatio: 120,
  ctPrimaryA: 100,
  bandCentreV: 122,
  bandwidthV: 2,
})
