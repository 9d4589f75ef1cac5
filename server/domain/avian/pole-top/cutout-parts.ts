import type { Phase } from '#domain/units/phases.ts'
import { drawPart, type PointIn } from './draw-part.ts'
import type { Part } from './part.ts'

/** A place on a bracket or an arm for one cutout or arrester. */
export interface Slot {
  /** Where the bracket begins, at the pole or the arm, and where it ends, in front. */
  readonly from: PointIn
  readonly at: PointIn
  /** A bracket that stands out from the pole is long enough to stand on. */
  readonly canPerch: boolean
}

export function cutoutTop({ at: [x, y, z] }: Slot): PointIn {
  return [x, y + 6, z + 9]
}

export function cutoutBottom({ at: [x, y, z] }: Slot): PointIn {
  return [x, y + 9, z - 9]
}

/** Two contacts that are live when it is closed, and the bracket that holds the insulator between. */
export function cutoutParts(id: string, phase: Phase, name: string, slot: Slot): Part[] {
  const contact = (end: 'top' | 'bottom', from: PointIn) =>
    drawPart({
      id: `${id}-${end}`,
      label: `${name} ${end}`,
      kind: 'cutout',
      potential: phase,
      from,
      widthIn: 2,
    })
  const [top, bottom] = [cutoutTop(slot), cutoutBottom(slot)]
  return [
    bracketPart(`${id}-bracket`, `${name} bracket`, slot),
    drawPart({
      id: `${id}-insulator`,
      label: `${name} insulator`,
      kind: 'insulator',
      potential: 'none',
      from: [top[0], top[1] - 2, top[2] - 2],
      to: [bottom[0], bottom[1] - 2, bottom[2] + 2],
      widthIn: 3,
    }),
    contact('top', top),
    contact('bottom', bottom),
  ]
}

export function bracketPart(id: string, label: string, { from, at, canPerch }: Slot): Part {
  return drawPart({
    id,
    label,
    kind: 'bracket',
    potential: 'grounded',
    from,
    to: at,
    widthIn: 2,
    canPerch,
  })
}

export function arresterTop({ at: [x, y, z] }: Slot): PointIn {
  return [x, y, z + 11]
}

/** Its foot on a bonded bracket, its line terminal on top. */
export function arresterParts(id: string, phase: Phase, name: string, slot: Slot): Part[] {
  const top = arresterTop(slot)
  return [
    bracketPart(`${id}-bracket`, `${name} bracket`, slot),
    drawPart({
      id: `${id}-body`,
      label: `${name} body`,
      kind: 'insulator',
      potential: 'none',
      from: [slot.at[0], slot.at[1], slot.at[2] + 1],
      to: [top[0], top[1], top[2] - 1],
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
