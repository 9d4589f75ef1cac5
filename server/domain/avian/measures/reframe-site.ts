import type { Framing } from '../pole-top/framing.ts'
import type { PoleSite, PoleTop } from '../pole-top/pole-top.ts'
import type { PoleTopChoice } from '../pole-top/pole-top-choice.ts'
import { type LineShape, lineShape } from './line-shape.ts'
import type { MeasureUse } from './measure.ts'

/** Measures that change how the pole is framed, so that its top is drawn anew. */
export const FRAMING_MEASURES = [
  'longer arm',
  'lowered arm',
  'pole-top extension',
  'suspended insulators',
  'equipment moved to the ground',
] as const
export type FramingMeasure = (typeof FRAMING_MEASURES)[number]

/** The same with its kind known as one that changes the framing. */
export interface FramingUse extends MeasureUse {
  readonly kind: FramingMeasure
}

export function isFramingUse(use: MeasureUse): use is FramingUse {
  return (FRAMING_MEASURES as readonly string[]).includes(use.kind)
}

/** The site as it would be recorded after its framing was changed; `top` is what it was before. */
export function reframeSite(site: PoleSite, top: PoleTop, use: FramingUse): PoleSite {
  if (use.kind === 'equipment moved to the ground') return withoutEquipment(site, use)
  const shape = lineShape(top)
  return shape ? withMeasured(site, measuredAfter(use, shape, top.framing)) : site
}

/** Parts of a piece of equipment carry its id in front of theirs. */
function withoutEquipment(site: PoleSite, { partIds }: FramingUse): PoleSite {
  const isMoved = (id: string) =>
    partIds.length === 0 || partIds.some((part) => part === id || part.startsWith(`${id}-`))
  return { ...site, equipment: site.equipment.filter(({ id }) => !isMoved(id)) }
}

type Change = Pick<PoleTopChoice, 'measured' | 'framing'>

function measuredAfter(use: FramingUse, shape: LineShape, framing: Framing): Change {
  const { outerPhaseM, topPinM, outerDropM, armPinM } = shape
  const dimensionM = use.dimensionM
  switch (use.kind) {
    case 'longer arm':
      return { measured: { outerPhaseM: dimensionM ?? outerPhaseM } }
    case 'lowered arm':
      return { measured: { outerDropM: dimensionM ?? outerDropM } }
    case 'pole-top extension': {
      const raisedM = dimensionM ?? topPinM
      return {
        measured: { topPinM: raisedM, outerDropM: raisedM - (topPinM - outerDropM) },
        ...(framing === 'flat arm' && { framing: 'arm and pole-top pin' }),
      }
    }
    case 'suspended insulators': {
      const stringM = dimensionM ?? 0
      return { measured: { outerDropM: outerDropM + (armPinM ?? 0) + stringM, armPinM: -stringM } }
    }
    default:
      return { measured: {} }
  }
}

function withMeasured(site: PoleSite, { measured, framing }: Change): PoleSite {
  const choice = site.choice ?? emptyChoice(site.pole.id)
  return {
    ...site,
    choice: {
      ...choice,
      ...(framing && { framing }),
      measured: { ...choice.measured, ...measured },
    },
  }
}

function emptyChoice(pole: string): PoleTopChoice {
  return { pole, measured: {}, withoutParts: [], addedParts: [], note: '' }
}
