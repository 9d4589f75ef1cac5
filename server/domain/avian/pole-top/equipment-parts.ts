import type { Phase } from '#domain/units/phases.ts'
import type { Equipment } from '../../feeder/equipment.ts'
import { beside, bracketSlots } from './bracket-slots.ts'
import { capacitorRackPart, capacitorUnitParts } from './capacitor-parts.ts'
import {
  arresterParts,
  arresterTop,
  cutoutBottom,
  cutoutParts,
  cutoutTop,
  type Slot,
} from './cutout-parts.ts'
import { guyParts } from './guy-parts.ts'
import { type Feed, feedsOf } from './hung-equipment.ts'
import type { Part } from './part.ts'
import { recloserParts } from './recloser-parts.ts'
import { regulatorBankParts } from './regulator-parts.ts'
import type { Rig } from './rig.ts'
import { riserPhaseParts } from './riser-parts.ts'
import { switchParts } from './switch-parts.ts'
import { transformerUnitParts } from './transformer-parts.ts'
import { jumper, leadFromLine, leadToLine } from './wire-ways.ts'

/** Beside its cutout an arrester stands so far out. */
const ARRESTER_BESIDE_IN = 9

/** Everything that the equipment of the pole brings, each piece joined to what feeds it. */
export function equipmentParts(rig: Rig): Part[] {
  const { equipment } = rig.plan
  const feeds = inPlace(rig, feedsOf(equipment))
  const standing = feeds.filter(standsOnBracket)
  const { slots, arm } = bracketSlots(
    rig,
    standing.map(({ phase }) => phase),
  )
  const slotOf = new Map(standing.map((feed, index) => [feed, slots[index] ?? null]))
  return [
    ...arm,
    ...feeds.flatMap((feed) => feedParts(rig, feed, slotOf.get(feed) ?? null, feeds)),
    ...equipment.flatMap((item) => wholeParts(rig, item, feeds)),
  ]
}

/** Fuses and cutouts that are left over are told from those of equipment by their name. */
function cutoutName({ phase, fed }: Feed): string {
  return fed?.kind === 'fuse' || fed === null
    ? `${phase}-phase line cutout`
    : `${phase}-phase cutout`
}

/** From left to right, what belongs to the line itself after the equipment of its phase. */
function inPlace({ leftToRight }: Rig, feeds: readonly Feed[]): Feed[] {
  const place = ({ phase }: Feed) => leftToRight.indexOf(phase)
  return [...feeds].sort((one, other) => place(one) - place(other))
}

function standsOnBracket({ fed, cutout, arrester }: Feed): boolean {
  if (fed?.kind === 'riser') return true
  return cutout !== null || (fed === null && arrester !== null)
}

function feedParts(rig: Rig, feed: Feed, slot: Slot | null, feeds: readonly Feed[]): Part[] {
  const { phase, fed, cutout, arrester } = feed
  const arresterSlot = arrester && slot && arresterPlace(feed, slot)
  return [
    ...(cutout && slot ? cutoutWithLead(rig, feed, slot) : []),
    ...(arrester && arresterSlot ? arresterWithLead(rig, feed, arresterSlot, slot) : []),
    ...fedParts(rig, feed, cutout ? slot : null, arresterSlot, placeAmong(feed, feeds)),
    ...(fed === null || fed.kind === 'fuse'
      ? cutout && slot
        ? loadSide(rig, `${cutout.id}-${phase}`, phase, slot)
        : []
      : []),
  ]
}

/** A transformer's arrester sits on its tank; other ones stand beside the cutout or in its place. */
function arresterPlace({ fed, cutout }: Feed, slot: Slot): Slot | null {
  if (fed?.kind === 'transformer') return null
  return cutout ? beside(slot, ARRESTER_BESIDE_IN) : slot
}

function cutoutWithLead(rig: Rig, feed: Feed, slot: Slot): Part[] {
  if (!feed.cutout) return []
  const id = `${feed.cutout.id}-${feed.phase}`
  return [
    ...cutoutParts(id, feed.phase, cutoutName(feed), slot),
    ...leadFromLine(rig, `${id}-lead`, feed.phase, 'cutout', cutoutTop(slot)),
  ]
}

/** Ahead of the fuse where there is one, so that its wire comes from the top of the cutout. */
function arresterWithLead(rig: Rig, feed: Feed, place: Slot, slot: Slot | null): Part[] {
  const { phase, arrester, cutout } = feed
  if (!arrester) return []
  const id = `${arrester.id}-${phase}`
  const top = arresterTop(place)
  return [
    ...arresterParts(id, phase, `${phase}-phase arrester`, place),
    ...(cutout && slot
      ? jumper(`${id}-lead`, phase, 'arrester', [cutoutTop(slot), top])
      : leadFromLine(rig, `${id}-lead`, phase, 'arrester', top)),
  ]
}

interface Place {
  readonly index: number
  readonly count: number
}

/** Which of the units of its kind, counted from the left. */
function placeAmong(feed: Feed, feeds: readonly Feed[]): Place {
  const alike = feeds.filter(({ fed }) => fed !== null && fed.kind === feed.fed?.kind)
  return { index: alike.indexOf(feed), count: alike.length }
}

function fedParts(
  rig: Rig,
  feed: Feed,
  cutoutSlot: Slot | null,
  arresterSlot: Slot | null,
  place: Place,
): Part[] {
  switch (feed.fed?.kind) {
    case 'transformer':
      return transformerUnitParts(rig, feed, cutoutSlot, place)
    case 'capacitor':
      return capacitorUnitParts(rig, feed, cutoutSlot, place)
    case 'riser':
      return riserPhaseParts(rig, feed, cutoutSlot, arresterSlot)
    default:
      return []
  }
}

/** From the bottom of a cutout in the line to the tap, or back to the line behind the pole. */
function loadSide(rig: Rig, id: string, phase: Phase, slot: Slot): Part[] {
  const start = cutoutBottom(slot)
  const tap = rig.tap(phase)
  if (tap) {
    const [x, y, z] = start
    return jumper(`${id}-tap-lead`, phase, 'tap', [start, [x, y + 4, Math.min(z, tap[2]) + 2], tap])
  }
  return leadToLine(rig, `${id}-load-lead`, phase, 'line', start)
}

/** What is drawn once for all of its phases. */
function wholeParts(rig: Rig, item: Equipment, feeds: readonly Feed[]): Part[] {
  const own = feeds.filter(({ fed }) => fed === item)
  const phases = [...item.phases] as Phase[]
  switch (item.kind) {
    case 'capacitor':
      return [capacitorRackPart(rig, item.id, own.length)]
    case 'recloser':
      return recloserParts(rig, item, own)
    case 'regulator':
      return regulatorBankParts(rig, item.id, phases)
    case 'switch':
      return switchParts(rig, item.id, phases)
    case 'guy':
      return guyParts(item.id, item.count)
    default:
      return []
  }
}
