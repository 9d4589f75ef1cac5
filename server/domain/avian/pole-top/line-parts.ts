import { drawPart, drawWire, type PointIn } from './draw-part.ts'
import type { Part } from './part.ts'
import type { PolePlan } from './pole-plan.ts'
import {
  ARM_OUT_IN,
  armLevelIn,
  DRAWN_CONDUCTOR_IN,
  hasArm,
  POLE_WIDTH_IN,
  STRING_IN,
  type Support,
  stringStartIn,
} from './supports.ts'
import { PIN_INSET_IN } from './usual-dimensions.ts'

/** The line itself: pole, arms, conductors with their insulators, neutral and ground wire. */
export function lineParts(plan: PolePlan, supports: readonly Support[]): Part[] {
  return [
    polePart(plan),
    ...armParts(plan, supports),
    ...supports.flatMap((support) => carriedParts(plan, support)),
    neutralPart(plan),
    ...groundWireParts(plan),
  ]
}

/** Below the lowest hardware so much of the pole is drawn. */
const DRAWN_BELOW_IN = 24

function drawnPoleIn({ dimensions }: PolePlan): number {
  return Math.max(dimensions.neutralBelowTopIn, dimensions.lidBelowTopIn + 36) + DRAWN_BELOW_IN
}

function polePart(plan: PolePlan): Part {
  return drawPart({
    id: 'pole',
    label: 'pole',
    kind: 'pole',
    potential: plan.poleConducts ? 'grounded' : 'none',
    from: [0, 0, 0],
    to: [0, 0, -drawnPoleIn(plan)],
    widthIn: POLE_WIDTH_IN,
    canPerch: true,
  })
}

const ARM_WIDTH_IN = 3.5

function armParts(plan: PolePlan, supports: readonly Support[]): Part[] {
  if (!hasArm(plan)) return []
  const halfIn = Math.max(...supports.map(({ at }) => Math.abs(at[0])), 12) + PIN_INSET_IN
  const zIn = armLevelIn(plan)
  const arm = (id: string, label: string, yIn: number) =>
    drawPart({
      id,
      label: plan.armMaterial === 'wood' ? label : `${plan.armMaterial} ${label}`,
      kind: 'arm',
      potential: plan.armConducts ? 'grounded' : 'none',
      from: [-halfIn, yIn, zIn],
      to: [halfIn, yIn, zIn],
      widthIn: ARM_WIDTH_IN,
      canPerch: true,
    })
  return [
    arm('arm', 'arm', ARM_OUT_IN),
    ...(plan.isArmDouble ? [arm('arm-behind', 'arm behind', -ARM_OUT_IN)] : []),
    ...[-1, 1].map((side) => bracePart(plan, side, halfIn, zIn)),
  ]
}

/** Steel on a pole or arm that conducts is grounded; between wood and wood it is connected to nothing. */
function bracePart(plan: PolePlan, side: number, halfIn: number, zIn: number): Part {
  return drawPart({
    id: side < 0 ? 'brace-left' : 'brace-right',
    label: side < 0 ? 'left brace' : 'right brace',
    kind: 'brace',
    potential: plan.poleConducts || plan.armConducts ? 'grounded' : 'none',
    from: [side * Math.min(28, halfIn - 10), ARM_OUT_IN - 2, zIn - 4],
    to: [side * 2, POLE_WIDTH_IN / 2, zIn - 24],
    widthIn: 1,
  })
}

function carriedParts(plan: PolePlan, support: Support): Part[] {
  switch (support.hold) {
    case 'pin':
      return [pinPart(plan, support), conductor(support, '', ...through(support))]
    case 'post':
      return [postPart(support), conductor(support, '', ...through(support))]
    case 'dead-end':
      return endParts(plan, support, 'in front', [0, 1])
    case 'double dead-end':
      return [
        ...endParts(plan, support, 'in front', [0, 1]),
        ...endParts(plan, support, 'behind', [0, -1]),
        ...loopBelow(plan, support),
      ]
    case 'corner':
      return [
        ...endParts(plan, support, 'in front', [0, 1]),
        ...endParts(plan, support, 'to the side', [1, 0]),
        ...loopAround(plan, support),
      ]
  }
}

function through({ at: [x, , z] }: Support): [PointIn, PointIn] {
  return [
    [x, -DRAWN_CONDUCTOR_IN, z],
    [x, DRAWN_CONDUCTOR_IN, z],
  ]
}

function conductor({ phase }: Support, where: string, from: PointIn, to: PointIn): Part {
  return drawPart({
    id: where ? `${phase}-conductor-${where.replaceAll(' ', '-')}` : `${phase}-conductor`,
    label: where ? `${phase}-phase conductor ${where}` : `${phase}-phase conductor`,
    kind: 'conductor',
    potential: phase,
    from,
    to,
    widthIn: 0.5,
  })
}

/** Conductors lie on top of their insulators, or hang below them. */
function pinPart(plan: PolePlan, { phase, at: [x, , z] }: Support): Part {
  const onPoleTop = x === 0 && (!hasArm(plan) || z > armLevelIn(plan) + plan.dimensions.armPinIn)
  return drawPart({
    id: `${phase}-insulator`,
    label: `${phase}-phase insulator`,
    kind: 'insulator',
    potential: 'none',
    from: onPoleTop ? [0, 0, 0] : [x, ARM_OUT_IN, armLevelIn(plan)],
    to: onPoleTop ? [0, 0, z] : [x, ARM_OUT_IN, z],
    widthIn: 4,
  })
}

function postPart({ phase, at: [x, , z] }: Support): Part {
  return drawPart({
    id: `${phase}-insulator`,
    label: `${phase}-phase insulator`,
    kind: 'insulator',
    potential: 'none',
    from: [(Math.sign(x) * POLE_WIDTH_IN) / 2, 0, z],
    to: [x, 0, z],
    widthIn: 4,
  })
}

/** String, clamp and conductor in the direction that points away from the pole. */
function endParts(
  plan: PolePlan,
  support: Support,
  where: string,
  [ux, uy]: readonly [number, number],
): Part[] {
  const { phase } = support
  const [x, y, z] = support.at
  const out = (distanceIn: number): PointIn => [x + ux * distanceIn, y + uy * distanceIn, z]
  const startIn = stringStartIn(plan)
  const id = where.replaceAll(' ', '-')
  return [
    drawPart({
      id: `${phase}-insulator-${id}`,
      label: `${phase}-phase dead-end insulator ${where}`,
      kind: 'insulator',
      potential: 'none',
      from: out(startIn),
      to: out(startIn + STRING_IN - 2),
      widthIn: 4,
    }),
    drawPart({
      id: `${phase}-clamp-${id}`,
      label: `${phase}-phase dead-end clamp ${where}`,
      kind: 'dead-end clamp',
      potential: phase,
      from: out(startIn + STRING_IN),
      to: out(startIn + STRING_IN + 5),
      widthIn: 2,
    }),
    conductor(support, where, out(startIn + STRING_IN + 5), out(DRAWN_CONDUCTOR_IN)),
  ]
}

/** A slack loop below the arm joins both sides; the middle one goes around the pole. */
function loopBelow(plan: PolePlan, { phase, at: [x, , z] }: Support): Part[] {
  const clampIn = stringStartIn(plan) + STRING_IN + 2
  const besideIn = Math.abs(x) < POLE_WIDTH_IN + 6 ? POLE_WIDTH_IN + 6 : x
  return drawWire(
    { id: `${phase}-loop`, label: `${phase}-phase jumper`, kind: 'jumper', potential: phase },
    [
      [x, clampIn, z],
      [besideIn, 10, z - 14],
      [besideIn, -10, z - 14],
      [x, -clampIn, z],
    ],
  )
}

function loopAround(plan: PolePlan, { phase, at: [, , z] }: Support): Part[] {
  const clampIn = stringStartIn(plan) + STRING_IN + 2
  return drawWire(
    { id: `${phase}-loop`, label: `${phase}-phase jumper`, kind: 'jumper', potential: phase },
    [
      [0, clampIn, z],
      [16, 16, z - 8],
      [clampIn, 0, z],
    ],
  )
}

const NEUTRAL_OUT_IN = POLE_WIDTH_IN / 2 + 2

function neutralPart({ dimensions }: PolePlan): Part {
  const zIn = -dimensions.neutralBelowTopIn
  return drawPart({
    id: 'neutral',
    label: 'neutral',
    kind: 'neutral',
    potential: 'grounded',
    from: [NEUTRAL_OUT_IN, -DRAWN_CONDUCTOR_IN, zIn],
    to: [NEUTRAL_OUT_IN, DRAWN_CONDUCTOR_IN, zIn],
    widthIn: 0.5,
  })
}

/** Stapled to the back of the pole; a pole that conducts needs none. */
function groundWireParts(plan: PolePlan): Part[] {
  const { groundWire, dimensions, poleConducts } = plan
  if (poleConducts || groundWire === 'none') return []
  const topIn = groundWire === 'to the pole top' ? 0 : -highestGroundedIn(plan)
  return drawWire(
    { id: 'ground-wire', label: 'ground wire', kind: 'ground wire', potential: 'grounded' },
    [
      [0, -POLE_WIDTH_IN / 2, topIn],
      [0, -POLE_WIDTH_IN / 2, -Math.max(drawnPoleIn(plan), dimensions.neutralBelowTopIn)],
    ],
  )
}

/** Up to the brackets or lids of equipment; without any, up to the neutral. */
function highestGroundedIn({ dimensions, equipment }: PolePlan): number {
  const { neutralBelowTopIn, bracketBelowTopIn, lidBelowTopIn } = dimensions
  const kinds = new Set(equipment.map(({ kind }) => kind))
  if (kinds.has('cutout') || kinds.has('arrester') || kinds.has('riser') || kinds.has('fuse')) {
    return Math.min(bracketBelowTopIn, neutralBelowTopIn)
  }
  const hasTank = ['transformer', 'regulator', 'capacitor', 'recloser'] as const
  return hasTank.some((kind) => kinds.has(kind)) ? lidBelowTopIn : neutralBelowTopIn
}
