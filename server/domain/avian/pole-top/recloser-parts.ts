import type { Equipment } from '../../feeder/equipment.ts'
import type { PointIn } from './draw-part.ts'
import type { Feed } from './hung-equipment.ts'
import type { Part } from './part.ts'
import { lidLevelIn, type Rig } from './rig.ts'
import {
  bushingParts,
  RECLOSER_TANK,
  tankArresterParts,
  tankOutIn,
  tankPart,
} from './tank-parts.ts'
import { jumper, leadFromLine, leadOnward } from './wire-ways.ts'

const BUSHING_STEP_IN = 11
/** Bushings lean outward: source to the front, load to the pole. */
const SOURCE_OUT_IN = 10
const LOAD_OUT_IN = 5

/** One tank with a source and a load bushing of each phase, in the order of its feeds. */
export function recloserParts(rig: Rig, recloser: Equipment, feeds: readonly Feed[]): Part[] {
  const lid: PointIn = [0, tankOutIn(RECLOSER_TANK), lidLevelIn(rig)]
  return [
    tankPart(`${recloser.id}-tank`, 'recloser tank', lid, RECLOSER_TANK),
    ...feeds.flatMap((feed, index) =>
      phaseParts(rig, recloser.id, feed, [
        lid[0] + (index - (feeds.length - 1) / 2) * BUSHING_STEP_IN,
        lid[1],
        lid[2],
      ]),
    ),
  ]
}

function phaseParts(rig: Rig, recloserId: string, feed: Feed, [x, y, z]: PointIn): Part[] {
  const { phase } = feed
  const arresterId = feed.arrester?.id ?? null
  const id = `${recloserId}-${phase}`
  const name = `${phase}-phase recloser`
  const top = z + rig.plan.dimensions.bushingIn
  const source: PointIn = [x, y + SOURCE_OUT_IN, top]
  const load: PointIn = [x, y - LOAD_OUT_IN, top]
  const arresterAt: PointIn | null = arresterId
    ? [x * 1.4, y + RECLOSER_TANK.widthIn / 2 + 6, z + 2]
    : null
  return [
    ...bushingParts(`${id}-source`, `${name} source bushing`, phase, source, z),
    ...bushingParts(`${id}-load`, `${name} load bushing`, phase, load, z),
    ...(arresterId && arresterAt
      ? [
          ...tankArresterParts(`${arresterId}-${phase}`, phase, `${name} arrester`, arresterAt),
          ...leadFromLine(rig, `${id}-source-lead`, phase, 'recloser', arresterAt),
          ...jumper(`${id}-source-lead-on`, phase, 'recloser', [arresterAt, source]),
        ]
      : leadFromLine(rig, `${id}-source-lead`, phase, 'recloser', source)),
    ...leadOnward(rig, `${id}-load-lead`, feed, load, 'above'),
  ]
}
