import { equipmentParts } from './equipment-parts.ts'
import { feedsOf, feedsTap } from './hung-equipment.ts'
import { lineParts } from './line-parts.ts'
import type { Part, Point } from './part.ts'
import { type PolePlan, polePlan } from './pole-plan.ts'
import type { PoleSite, PoleTop } from './pole-top.ts'
import type { AddedPart, PoleTopChoice } from './pole-top-choice.ts'
import { rigOf } from './rig.ts'
import { supportsOf } from './supports.ts'
import { tapJumpers, tapParts, tapStarts } from './tap-parts.ts'

/**
 * Everything on top of a pole in three dimensions: the framing that its record or a person names,
 * what was measured in place of what is usual, and what its equipment brings. Null where nothing says
 * which phases it carries.
 */
export function poleTopOf(site: PoleSite): PoleTop | null {
  const plan = polePlan(site)
  if (!plan) return null
  return {
    poleId: site.pole.id,
    framing: plan.framing,
    parts: asChosen(partsOf(plan), site.choice),
    assumptions: plan.assumptions,
  }
}

function partsOf(plan: PolePlan): Part[] {
  const supports = supportsOf(plan)
  const rig = rigOf(plan, supports, tapStarts(plan, supports))
  const fused = new Set(
    feedsOf(plan.equipment)
      .filter((feed) => feedsTap(feed, plan.tapPhases))
      .map(({ phase }) => phase),
  )
  return [
    ...lineParts(plan, supports),
    ...tapParts(plan, supports),
    ...tapJumpers(plan, supports, (phase) => fused.has(phase)),
    ...equipmentParts(rig),
  ]
}

/** Without the parts that a person took off, and with those that were added. */
function asChosen(parts: readonly Part[], choice: PoleTopChoice | null): readonly Part[] {
  if (!choice) return parts
  const off = new Set(choice.withoutParts)
  return [...parts.filter(({ id }) => !off.has(id)), ...choice.addedParts.map(addedPart)]
}

function addedPart({ fromM, toM, ...rest }: AddedPart): Part {
  const from: Point = fromM
  return { ...rest, from, to: toM, surface: 'bare' }
}
