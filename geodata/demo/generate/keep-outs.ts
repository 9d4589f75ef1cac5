import { besideTrunk } from './beside-trunk.ts'
import { blob, rectangle } from './circle.ts'
import type { FeederDraft } from './feeder-draft.ts'
import type { LaidFeeder } from './lay-feeder.ts'
import { positionOf } from './plane.ts'
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
  return plans.map(({ name, reason, km, leftM, shape }, i) => {
    const { at, headingDeg } = besideTrunk(laid, km, leftM)
    const ring =
      shape.kind === 'strip'
        ? rectangle(at, headingDeg, shape.alongM, shape.acrossM)
        : blob(at, shape.radiusM, seededRandom(SEED, `${laid.id} keepout ${i}`), {
            stretch: shape.stretch,
            headingDeg,
          })
    return { id: `keepout-${laid.letter}${i + 1}`, name, reason, area: [ring.map(positionOf)] }
  })
}
