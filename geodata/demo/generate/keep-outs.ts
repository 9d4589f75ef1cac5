import { besideTrunk } from './beside-trunk.ts'
import { blob, rectangle } from './circle.ts'
import type { FeederDraft } from './feeder-draft.ts'
import type { LaidFeeder } from './lay-feeder.ts'
import { type Point, positionOf } from './plane.ts'
import { seededRandom } from './seeded-random.ts'
import { SEED } from './valley.ts'

export interface KeepOutPlan {
  readonly name: string
  readonly reason: string
  readonly km: number
  readonly leftM: number
  readonly shape:
    | { readonly kind: 'blob'; readonly radiusM: number; readonly stretch: number }
    | { readonly kind: 'strip'; readonly alongM: number; readonly acrossM: number }
}

export function keepOutsOf(
  laid: LaidFeeder,
  plans: readonly KeepOutPlan[],
): FeederDraft['keepOuts'] {
  return plans.map(({ name, reason }, i) => ({
    id: `keepout-${laid.letter}${i + 1}`,
    name,
    reason,
    area: [(keepOutRings(laid, plans)[i] ?? []).map(positionOf)],
  }))
}

/** The closed rings of the plans, in their order. */
export function keepOutRings(laid: LaidFeeder, plans: readonly KeepOutPlan[]): Point[][] {
  return plans.map(({ km, leftM, shape }, i) => {
    const { at, headingDeg } = besideTrunk(laid, km, leftM)
    if (shape.kind === 'strip') return rectangle(at, headingDeg, shape.alongM, shape.acrossM)
    const random = seededRandom(SEED, `${laid.id} keepout ${i}`)
    return blob(at, shape.radiusM, random, { stretch: shape.stretch, headingDeg })
  })
}
