import type { Phase } from '#domain/units/phases.ts'
import type { Equipment } from '../../feeder/equipment.ts'
import { beside, bracketSlots, needsArm } from './bracket-slots.ts'
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
import { type Feed, feedsOf, isOfLine } from './hung-equipment.ts'
import type { Part } from './part.ts'
import { recloserParts } from './recloser-parts.ts'
import { regulatorBankParts } from './regulator-parts.ts'
import { bracketLevelIn, lineBracketLevelIn, type Rig } from './rig.ts'
import { riserPhaseParts, terminatorArm } from './riser-parts.ts'
import { switchParts } from './switch-parts.ts'
import { transformerUnitParts } from './transformer-parts.ts'
import { jumper, leadFromLine, leadOnward } from './wire-ways.ts'

/** Beside its cutout an arrester stands so far out. */
const ARRESTER_BESIDE_IN = 9

/** Everything that the equipment of the pole brings, each piece joined to what feeds it. */
export function equipmentParts(rig: Rig): Part[] {
  const { equipment } = rig.plan
  const feeds = inPlace(rig, feedsOf(equipment))
  const rows = rowsOf(rig, feeds.filter(standsOnBracket)).map(({ standing, row }) => ({
    standing,
    ...bracketSlots(rig, standing, row),
  }))
  const slotOf = new Map(
    rows.flatMap(({ standing, slots }) =>
      standing.map((feed, index) => [feed, slots[index] ?? null] as const),
    ),
  )
  return [
    ...rows.flatMap(({ arm }) => arm),
    ...feeds.flatMap((feed) => feedParts(rig, feed, slotOf.get(feed) ?? null, feeds)),
    ...equipment.flatMap((item) => wholeParts(rig, item, feeds)),
  ]
}

/** Fuses and cutouts that are left over are told from those of equipment by their name. */
function cutoutName(feed: Feed): string {
  return isOfLine(feed) ? `${feed.phase}-phase line cutout` : `${feed.phase}-phase cutout`
}

/** All in one row, unless a tap leaves between what belongs to the line and what hangs below. */
function rowsOf(rig: Rig, standing: readonly Feed[]) {
  const row = { zIn: bracketLevelIn(rig), armId: 'equipment-arm', armLabel: 'equipment arm' }
  const lineRow = { zIn: lineBracketLevelIn(rig), armId: 'cutout-arm', armLabel: 'cutout arm' }
  if (row.zIn === lineRow.zIn) return [{ standing, row }]
  return [
    { standing: standing.filter(isOfLine), row: lineRow },
    { standing: standing.filter((feed) => !isOfLine(feed)), row },
  ]
}

/** From left to right. */
function inPlace({ leftToRight }: Rig, feeds: readonly Feed[]): Feed[] {
  const place = ({ phase }: Feed) => leftToRight.indexOf(phase)
  return [...feeds].sort((one, other) => place(one) - place(other))
}

function standsOnBracket({ fed, cutout, arrester }: Feed): boolean {
  if (fed?.kind === 'riser') return true
  return cutout !== null || (fed === null && arrester !== null)
}

function feedParts(rig: Rig, feed: Feed, slot: Slot | null, feeds: readonly Feed[]): Part[] {
  const { phase, cutout, arrester } = feed
  const arresterSlot = arrester && slot && arresterPlace(feed, slot)
  return [
    ...(cutout && slot ? cutoutWithLead(rig, feed, slot) : []),
    ...(arrester && arresterSlot ? arresterWithLead(rig, feed, arresterSlot, slot) : []),
    ...fedParts(rig, feed, cutout ? slot : null, arresterSlot, placeAmong(feed, feeds)),
    ...(isOfLine(feed)
      ? cutout && slot
        ? leadOnward(rig, `${cutout.id}-${phase}-load-lead`, feed, cutoutBottom(slot), 'below')
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

/** What is drawn once for all of its phases. */
function wholeParts(rig: Rig, item: Equipment, feeds: readonly Feed[]): Part[] {
  const own = feeds.filter(({ fed }) => fed === item)
  const phases = [...item.phases] as Phase[]
  switch (item.kind) {
    case 'capacitor':
      return [capacitorRackPart(rig, item.id, own.length)]
    case 'riser':
      return own.length > 0 && needsArm(feeds.filter(standsOnBracket))
        ? [terminatorArm(rig, item.id)]
        : []
    case 'recloser':
      return recloserParts(rig, item, own)
    case 'regulator':
      return regulatorBankParts(rig, item.id, phases)
    case 'switch':
      return switchParts(rig, item.id, phases)
    case 'guy':
      return guyParts(rig.plan, item.id, item.count)
    default:
      return []
  }
}
