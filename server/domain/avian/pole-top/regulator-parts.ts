import type { Phase } from '#domain/units/phases.ts'
import { drawPart, drawWire, type PointIn } from './draw-part.ts'
import type { Part, Potential } from './part.ts'
import { dropLevelIn, lidLevelIn, type Rig } from './rig.ts'
import { ARM_OUT_IN } from './supports.ts'
import { bushingParts, REGULATOR_TANK, tankArresterParts, tankPart } from './tank-parts.ts'
import { jumper, leadFromLine, leadToLine } from './wire-ways.ts'

/** Between the tanks of a bank on a platform. */
const PLATFORM_STEP_IN = 46
const PLATFORM_OUT_IN = 24
/** Tanks that hang around the pole. */
const AROUND_OUT_IN = 24
/** Switches above the lids, so that their blades can be worked from below. */
const SWITCHES_ABOVE_LID_IN = 36
/** Half of a blade along the line, and from the unit's axis to its disconnects. */
const BLADE_REACH_IN = 8
const DISCONNECT_OUT_IN = 9

interface Unit {
  readonly id: string
  readonly phase: Phase
  /** The SL terminal: neutral on wye, another phase on the deltas. */
  readonly otherEnd: Potential
  readonly lid: PointIn
}

/**
 * A bank of single-phase regulators: on each unit the S, L and SL bushings, the series arrester
 * between S and L, a shunt arrester on either side, disconnects of source and load and the bypass
 * between them, and the jumpers that join these.
 */
export function regulatorBankParts(rig: Rig, bankId: string, phases: readonly Phase[]): Part[] {
  const units = unitsOf(rig, bankId, phases)
  const isOnPlatform = rig.plan.regulatorMounting === 'platform'
  return [
    ...(isOnPlatform ? platformParts(bankId, units) : []),
    switchArmPart(rig, bankId, units),
    ...units.flatMap((unit) => unitParts(rig, unit)),
  ]
}

/** In open delta two units share the phase between them; else each phase has its own. */
function unitsOf(rig: Rig, bankId: string, phases: readonly Phase[]): Unit[] {
  const connection = rig.plan.regulatorConnection
  const ordered = rig.leftToRight.filter((phase) => phases.includes(phase))
  const isOpen = connection === 'open delta' && ordered.length === 3
  const own = isOpen ? ordered.filter((_, index) => index !== 1) : ordered
  return own.map((phase, index) => ({
    id: `${bankId}-${phase}`,
    phase,
    otherEnd: otherEndOf(connection, ordered, phase),
    lid: lidAt(rig, index, own.length),
  }))
}

function otherEndOf(
  connection: Rig['plan']['regulatorConnection'],
  phases: readonly Phase[],
  phase: Phase,
): Potential {
  if (connection === 'wye' || phases.length < 2) return 'grounded'
  const index = phases.indexOf(phase)
  const shared = phases.length === 3 ? phases[1] : phases[1 - index]
  const next = phases[(index + 1) % phases.length]
  return (connection === 'open delta' ? shared : next) ?? 'grounded'
}

function lidAt(rig: Rig, index: number, count: number): PointIn {
  const z = lidLevelIn(rig)
  if (rig.plan.regulatorMounting === 'platform') {
    return [(index - (count - 1) / 2) * PLATFORM_STEP_IN, PLATFORM_OUT_IN, z]
  }
  if (count === 1) return [-AROUND_OUT_IN, 0, z]
  if (count === 2) return [index === 0 ? -AROUND_OUT_IN : AROUND_OUT_IN, 0, z]
  const round: readonly PointIn[] = [
    [-AROUND_OUT_IN, 0, z],
    [0, AROUND_OUT_IN, z],
    [AROUND_OUT_IN, 0, z],
  ]
  return round[index] ?? [0, 0, z]
}

/** Between posts of its own, in front of the pole. */
function platformParts(bankId: string, units: readonly Unit[]): Part[] {
  const [, y, z] = units[0]?.lid ?? [0, 0, 0]
  const halfIn = (units.length * PLATFORM_STEP_IN) / 2
  const zIn = z - REGULATOR_TANK.heightIn - 3
  const post = (side: -1 | 1) =>
    drawPart({
      id: `${bankId}-platform-post-${side < 0 ? 'left' : 'right'}`,
      label: side < 0 ? 'left post of the platform' : 'right post of the platform',
      kind: 'platform',
      potential: 'none',
      from: [side * (halfIn - 5), y, zIn - 1],
      to: [side * (halfIn - 5), y, zIn - 40],
      widthIn: 9,
    })
  return [
    drawPart({
      id: `${bankId}-platform`,
      label: 'regulator platform',
      kind: 'platform',
      potential: 'grounded',
      from: [-halfIn, y, zIn],
      to: [halfIn, y, zIn],
      widthIn: 26,
      canPerch: true,
    }),
    post(-1),
    post(1),
  ]
}

function switchArmPart({ plan }: Rig, bankId: string, units: readonly Unit[]): Part {
  const halfIn = Math.max(...units.map(({ lid }) => Math.abs(lid[0])), 0) + DISCONNECT_OUT_IN + 6
  const zIn = (units[0]?.lid[2] ?? 0) + SWITCHES_ABOVE_LID_IN - 8
  return drawPart({
    id: `${bankId}-switch-arm`,
    label: plan.armMaterial === 'wood' ? 'switch arm' : `${plan.armMaterial} switch arm`,
    kind: 'arm',
    potential: plan.armConducts ? 'grounded' : 'none',
    from: [-halfIn, ARM_OUT_IN, zIn],
    to: [halfIn, ARM_OUT_IN, zIn],
    widthIn: 3.5,
    canPerch: true,
  })
}

/** Places of one unit that wires end on. */
interface Terminals {
  readonly source: PointIn
  readonly load: PointIn
  readonly common: PointIn
  readonly sourceArrester: PointIn
  readonly loadArrester: PointIn
  /** Ends of the disconnects: on the side of the line, and on that of the tank. */
  readonly sourceLine: PointIn
  readonly sourceTank: PointIn
  readonly loadLine: PointIn
  readonly loadTank: PointIn
}

function terminalsOf(rig: Rig, [x, y, z]: PointIn): Terminals {
  const top = z + rig.plan.dimensions.bushingIn
  const blades = z + SWITCHES_ABOVE_LID_IN
  const rimIn = REGULATOR_TANK.widthIn / 2 + 5
  return {
    source: [x - 6, y - 2, top],
    load: [x + 6, y - 2, top],
    common: [x, y + 7, top],
    sourceArrester: [x - rimIn, y + 2, z + 2],
    loadArrester: [x + rimIn, y + 2, z + 2],
    sourceLine: [x - DISCONNECT_OUT_IN, y + BLADE_REACH_IN, blades],
    sourceTank: [x - DISCONNECT_OUT_IN, y - BLADE_REACH_IN, blades],
    loadLine: [x + DISCONNECT_OUT_IN, y + BLADE_REACH_IN, blades],
    loadTank: [x + DISCONNECT_OUT_IN, y - BLADE_REACH_IN, blades],
  }
}

function unitParts(rig: Rig, unit: Unit): Part[] {
  const { id, phase, lid } = unit
  const at = terminalsOf(rig, lid)
  const name = `${phase}-phase regulator`
  const z = lid[2]
  return [
    tankPart(`${id}-tank`, `${name} tank`, lid, REGULATOR_TANK),
    ...bushingParts(`${id}-s`, `${name} S bushing`, phase, at.source, z),
    ...bushingParts(`${id}-l`, `${name} L bushing`, phase, at.load, z),
    ...bushingParts(`${id}-sl`, `${name} SL bushing`, unit.otherEnd, at.common, z),
    ...arresters(unit, at),
    ...switches(unit, at),
    ...jumpers(rig, unit, at),
  ]
}

function arresters({ id, phase }: Unit, { source, load, sourceArrester, loadArrester }: Terminals) {
  const name = `${phase}-phase regulator`
  const [low, high] = [2.5, 3.5]
  return [
    drawPart({
      id: `${id}-series-arrester`,
      label: `${name} series arrester`,
      kind: 'arrester',
      potential: phase,
      from: [source[0] + low, source[1], source[2] - high],
      to: [load[0] - low, load[1], load[2] - high],
      widthIn: 2.5,
    }),
    ...tankArresterParts(`${id}-source-arrester`, phase, `${name} source arrester`, sourceArrester),
    ...tankArresterParts(`${id}-load-arrester`, phase, `${name} load arrester`, loadArrester),
  ]
}

function switches({ id, phase }: Unit, at: Terminals): Part[] {
  const blade = (use: string, from: PointIn, to: PointIn) =>
    drawPart({
      id: `${id}-${use}-switch`,
      label: `${phase}-phase regulator ${use} switch`,
      kind: 'switch blade',
      potential: phase,
      from,
      to,
      widthIn: 2,
    })
  return [
    blade('source', at.sourceLine, at.sourceTank),
    blade('load', at.loadLine, at.loadTank),
    blade('bypass', at.sourceLine, at.loadLine),
  ]
}

function jumpers(rig: Rig, unit: Unit, at: Terminals): Part[] {
  const { id, phase } = unit
  const to = `${phase}-phase`
  return [
    ...leadFromLine(rig, `${id}-source-lead`, phase, 'regulator source switch', at.sourceLine),
    ...jumper(`${id}-s-lead`, phase, 'regulator S bushing', [
      at.sourceTank,
      at.sourceArrester,
      at.source,
    ]),
    ...jumper(`${id}-l-lead`, phase, 'regulator L bushing', [
      at.loadTank,
      at.loadArrester,
      at.load,
    ]),
    ...leadToLine(rig, `${id}-load-lead`, phase, 'line from regulator', at.loadLine),
    ...commonLead(rig, unit, at, to),
  ]
}

/** From one end of a bank to the other; such a wire passes before those between neighbours. */
const ACROSS_BANK_IN = 60

/** SL to the neutral on the tank, or to the line of the other phase. */
function commonLead(rig: Rig, { id, lid, otherEnd }: Unit, { common }: Terminals, of: string) {
  if (otherEnd === 'none') return []
  if (otherEnd === 'grounded') {
    return drawWire(
      {
        id: `${id}-sl-lead`,
        label: `${of} regulator SL jumper to neutral`,
        kind: 'jumper',
        potential: 'grounded',
      },
      [common, [common[0], lid[1] + REGULATOR_TANK.widthIn / 2 + 1, lid[2]]],
    )
  }
  const line = rig.inFront(otherEnd)
  if (!line) return []
  const [x, y, zIn] = line
  const isAcrossBank = Math.abs(common[0] - x) > ACROSS_BANK_IN
  const frontIn = Math.max(y, lid[1] + REGULATOR_TANK.widthIn / 2) + (isAcrossBank ? 28 : 14)
  return jumper(`${id}-sl-lead`, otherEnd, `${of} regulator SL bushing`, [
    line,
    [x, frontIn, dropLevelIn(rig, zIn) - 10],
    [common[0], frontIn, lid[2] + SWITCHES_ABOVE_LID_IN - 10],
    common,
  ])
}
