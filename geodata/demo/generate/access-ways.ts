import { nearestOn, pointAlong, simplified } from './curve.ts'
import type { FeederDraft } from './feeder-draft.ts'
import type { LaidFeeder } from './lay-feeder.ts'
import { away, type Point, positionOf } from './plane.ts'
import type { Road } from './valley.ts'

const REACH_M = 2_500
const GATE_HALF_WIDTH_M = 4

/** Roads and tracks near the feeder; every track that leaves a road has a gate at its start. */
export function accessOf(laid: LaidFeeder, roads: readonly Road[]): FeederDraft['access'] {
  return roads
    .filter((road) => isNear(laid, road))
    .flatMap((road) => [wayOf(road), ...gateOf(road)])
}

function isNear(laid: LaidFeeder, road: Road): boolean {
  const some = laid.poles.filter((_, i) => i % 6 === 0)
  return some.some(({ at }) => nearestOn(road.line, at).distanceM < REACH_M)
}

function wayOf({ id, name, kind, line }: Road): FeederDraft['access'][number] {
  return {
    id,
    path: simplified(line, 1).map(positionOf),
    kind: kind === 'track' ? 'track' : 'road',
    name,
    ...(kind === 'track' && { note: 'dry weather only; leave the gate as found' }),
  }
}

function gateOf({ id, name, kind, line }: Road): FeederDraft['access'] {
  if (kind !== 'track') return []
  const { point, headingDeg } = nearestOn(line, pointAlong(line, 28))
  const post = (side: number): Point => away(point, headingDeg + 90, side * GATE_HALF_WIDTH_M)
  return [
    {
      id: `${id}-gate`,
      path: [positionOf(post(-1)), positionOf(post(1))],
      kind: 'gate',
      name: `${name} gate`,
      note: 'chained, utility lock',
    },
  ]
}
