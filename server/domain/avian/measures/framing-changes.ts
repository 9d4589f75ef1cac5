import { M_PER_IN } from '#domain/units/length.ts'
import type { Framing } from '../pole-top/framing.ts'
import type { Part } from '../pole-top/part.ts'
import type { PoleTop } from '../pole-top/pole-top.ts'
import type { BirdSize } from '../species/bird-species.ts'
import { type LineShape, lineShape } from './line-shape.ts'
import type { FramingUse } from './reframe-site.ts'

/** Outer phase of a 10-ft arm: 60 in less 4 in to the pin. */
const LONG_ARM_OUTER_M = 56 * M_PER_IN
/** Usual string of a suspended insulator with its hardware: an assumption. */
const STRING_M = 20 * M_PER_IN
/** Beyond what just reaches the guidance, for what a crew can hold to. */
const MARGIN_M = 1 * M_PER_IN
/** More than that is no change of a framing but another line. */
const MOST_DROP_M = 72 * M_PER_IN
const MOST_RAISE_M = 48 * M_PER_IN

const WITH_PIN_ARM: readonly Framing[] = ['two-phase arm', 'arm and pole-top pin', 'flat arm']
const WITH_ARM: readonly Framing[] = [...WITH_PIN_ARM, 'dead-end arm', 'double dead-end arm']

/** Changes of the framing that fit the pole; the dimensions are those that keep a bird of the size apart. */
export function framingChanges(top: PoleTop, size: BirdSize): FramingUse[] {
  const shape = lineShape(top)
  if (!shape) return []
  return [
    ...longerArm(top, shape),
    ...loweredArm(top, shape, size),
    ...extension(top, shape, size),
    ...suspended(top),
  ]
}

function longerArm({ framing, parts }: PoleTop, { outerPhaseM }: LineShape): FramingUse[] {
  const isShort = outerPhaseM < LONG_ARM_OUTER_M - MARGIN_M
  if (!WITH_ARM.includes(framing) || !isShort) return []
  return [{ kind: 'longer arm', partIds: idsOf(parts, 'arm'), dimensionM: LONG_ARM_OUTER_M }]
}

function loweredArm({ framing, parts }: PoleTop, shape: LineShape, size: BirdSize): FramingUse[] {
  if (framing !== 'arm and pole-top pin' || hasEquipment(parts)) return []
  const dimensionM = dropNeededM(shape.outerPhaseM, size)
  if (dimensionM <= shape.outerDropM + MARGIN_M / 2 || dimensionM > MOST_DROP_M) return []
  return [{ kind: 'lowered arm', partIds: idsOf(parts, 'arm'), dimensionM }]
}

/** Raises the middle phase above the outer ones, or a single phase above what is grounded. */
function extension({ framing, parts }: PoleTop, shape: LineShape, size: BirdSize): FramingUse[] {
  const { topPinM, outerDropM, outerPhaseM } = shape
  const use = (dimensionM: number): FramingUse[] =>
    dimensionM - topPinM > MARGIN_M / 2 && dimensionM - topPinM <= MOST_RAISE_M
      ? [{ kind: 'pole-top extension', partIds: idsOf(parts, 'pole'), dimensionM }]
      : []
  if (framing === 'pole-top pin') return use(size.heightM + MARGIN_M)
  if (framing !== 'arm and pole-top pin' && framing !== 'flat arm') return []
  return use(topPinM - outerDropM + dropNeededM(outerPhaseM, size))
}

function suspended({ framing, parts }: PoleTop): FramingUse[] {
  if (!WITH_PIN_ARM.includes(framing) || hasEquipment(parts)) return []
  return [{ kind: 'suspended insulators', partIds: idsOf(parts, 'arm'), dimensionM: STRING_M }]
}

/**
 * How far the outer phases must hang below the middle one: until the straight line reaches the
 * breadth of the bird, or the drop its height, whichever is sooner.
 */
function dropNeededM(outerPhaseM: number, { breadthM, heightM }: BirdSize): number {
  const diagonalM = Math.sqrt(Math.max(0, breadthM ** 2 - outerPhaseM ** 2))
  return Math.min(diagonalM, heightM) + MARGIN_M
}

/** What hangs below the arm would have to come down with it: no job of an hour. */
function hasEquipment(parts: readonly Part[]): boolean {
  return parts.some(({ kind }) => kind === 'tank' || kind === 'bracket')
}

function idsOf(parts: readonly Part[], kind: Part['kind']): string[] {
  return parts.flatMap((part) => (part.kind === kind ? [part.id] : []))
}
