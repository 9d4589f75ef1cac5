import { inchesOfMetres, M_PER_IN } from '#domain/units/length.ts'
import { type PolePlan, polePlan } from '../pole-top/pole-plan.ts'
import type { PoleSite } from '../pole-top/pole-top.ts'
import type { PoleTopChoice } from '../pole-top/pole-top-choice.ts'
import type { DimensionsIn } from '../pole-top/usual-dimensions.ts'
import type { MeasureUse } from './measure.ts'

/** Measures that change how the conductors are carried. */
export const FRAMING_CHANGES = [
  'longer arm',
  'lowered arm',
  'pole-top extension',
  'suspended insulators',
] as const
export type FramingMeasure = (typeof FRAMING_CHANGES)[number] | 'equipment moved to the ground'

/** A measure for which the pole top is drawn anew. */
export interface FramingUse extends MeasureUse {
  readonly kind: FramingMeasure
}

export function isFramingUse(use: MeasureUse): use is FramingUse {
  return (
    use.kind === 'equipment moved to the ground' ||
    (FRAMING_CHANGES as readonly string[]).includes(use.kind)
  )
}

/** The site as it would be recorded after its framing was changed. */
export function reframeSite(site: PoleSite, use: FramingUse): PoleSite {
  if (use.kind === 'equipment moved to the ground') return withoutEquipment(site, use)
  const plan = polePlan(site)
  return plan ? withMeasured(site, measuredAfter(use, plan)) : site
}

/** Parts of a piece of equipment carry its id in front of theirs. */
function withoutEquipment(site: PoleSite, { partIds }: FramingUse): PoleSite {
  const isMoved = (id: string) =>
    partIds.length === 0 || partIds.some((part) => part === id || part.startsWith(`${id}-`))
  return { ...site, equipment: site.equipment.filter(({ id }) => !isMoved(id)) }
}

type Change = Pick<PoleTopChoice, 'measured' | 'framing'>

function measuredAfter(
  { kind, dimensionM }: FramingUse,
  { framing, dimensions }: PolePlan,
): Change {
  const { topPinIn, outerDropIn, armPinIn } = dimensions
  const changedIn = dimensionM === undefined ? null : inchesOfMetres(dimensionM)
  if (changedIn === null) return { measured: {} }
  switch (kind) {
    case 'longer arm':
      return { measured: inMetres({ outerPhaseIn: changedIn }) }
    case 'lowered arm':
      return {
        measured: inMetres({
          outerDropIn: changedIn,
          ...hungLower(dimensions, changedIn - outerDropIn),
        }),
      }
    case 'pole-top extension': {
      const armStaysIn = changedIn - (topPinIn - outerDropIn)
      return {
        measured: inMetres({
          topPinIn: changedIn,
          ...(framing.includes('arm') && { outerDropIn: armStaysIn }),
        }),
        ...(framing === 'flat arm' && { framing: 'arm and pole-top pin' }),
      }
    }
    case 'suspended insulators':
      return {
        measured: inMetres({
          outerDropIn: outerDropIn + armPinIn + changedIn,
          armPinIn: -changedIn,
          ...hungLower(dimensions, armPinIn + changedIn),
        }),
      }
    default:
      return { measured: {} }
  }
}

/** Neutral and equipment keep their distance below the phases, so they come down with them. */
function hungLower(
  { neutralBelowTopIn, bracketBelowTopIn, lidBelowTopIn }: DimensionsIn,
  byIn: number,
): Partial<DimensionsIn> {
  return {
    neutralBelowTopIn: neutralBelowTopIn + byIn,
    bracketBelowTopIn: bracketBelowTopIn + byIn,
    lidBelowTopIn: lidBelowTopIn + byIn,
  }
}

function inMetres(dimensions: Partial<DimensionsIn>): PoleTopChoice['measured'] {
  return Object.fromEntries(
    Object.entries(dimensions).map(([name, inches]) => [
      name.replace(/In$/, 'M'),
      inches * M_PER_IN,
    ]),
  )
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
