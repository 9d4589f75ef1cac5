import type { Phase } from '#domain/units/phases.ts'
import { drawPart, type PointIn } from './draw-part.ts'
import type { Part, Potential } from './part.ts'

export interface TankShape {
  readonly heightIn: number
  readonly widthIn: number
}

export const TRANSFORMER_TANK: TankShape = { heightIn: 34, widthIn: 18 }
export const REGULATOR_TANK: TankShape = { heightIn: 40, widthIn: 22 }
export const RECLOSER_TANK: TankShape = { heightIn: 26, widthIn: 22 }
export const CAPACITOR_TANK: TankShape = { heightIn: 22, widthIn: 9 }

/** From the pole's axis to that of a tank: half a pole, a hanger and half a tank. */
export function tankOutIn({ widthIn }: TankShape): number {
  return 4.5 + 4 + widthIn / 2
}

/** A tank of metal with the middle of its lid at `lid`; a bird stands on the lid. */
export function tankPart(
  id: string,
  label: string,
  [x, y, z]: PointIn,
  { heightIn, widthIn }: TankShape,
): Part {
  return drawPart({
    id,
    label,
    kind: 'tank',
    potential: 'grounded',
    from: [x, y, z],
    to: [x, y, z - heightIn],
    widthIn,
    canPerch: true,
  })
}

/** The live end of a bushing, with its porcelain below. */
export function bushingParts(
  id: string,
  label: string,
  potential: Potential,
  at: PointIn,
  lidIn: number,
): Part[] {
  return [
    drawPart({
      id: `${id}-insulator`,
      label: `${label} insulator`,
      kind: 'insulator',
      potential: 'none',
      from: [at[0], at[1], lidIn],
      to: [at[0], at[1], at[2] - 1],
      widthIn: 4,
    }),
    drawPart({ id, label, kind: 'bushing', potential, from: at, widthIn: 2 }),
  ]
}

/** An arrester on a bracket of the tank, its line terminal a little above the rim of the lid. */
export function tankArresterParts(id: string, phase: Phase, name: string, top: PointIn): Part[] {
  const [x, y, z] = top
  return [
    drawPart({
      id: `${id}-body`,
      label: `${name} body`,
      kind: 'insulator',
      potential: 'none',
      from: [x, y, z - 1],
      to: [x, y, z - 12],
      widthIn: 3,
    }),
    drawPart({
      id: `${id}-top`,
      label: `${name} top`,
      kind: 'arrester',
      potential: phase,
      from: top,
      widthIn: 2,
    }),
  ]
}
