import type { Phase } from '#domain/units/phases.ts'

/**
 * Metres, with the pole's axis at the origin: x across the line, y along it, z up from the pole
 * top, so that everything on the pole has z at or below 0 unless it stands out above.
 */
export type Point = readonly [xM: number, yM: number, zM: number]

/**
 * What a part is connected to. Neutral, ground wire, tank and bonded hardware are one: grounded.
 * `none` is wood, fibreglass or porcelain, which a bird may stand on but not be killed by.
 */
export type Potential = Phase | 'grounded' | 'none'

export const PART_KINDS = [
  'conductor',
  'jumper',
  'insulator',
  'bushing',
  'cutout',
  'arrester',
  'dead-end clamp',
  'switch blade',
  'terminator',
  'tank',
  'bracket',
  'brace',
  'ground wire',
  'neutral',
  'guy',
  'arm',
  'pole',
  'platform',
  'perch',
] as const
export type PartKind = (typeof PART_KINDS)[number]

/** A straight piece of hardware: the line from `from` to `to`, as thick as `radiusM` sideways. */
export interface Part {
  readonly id: string
  /** As a line worker would call it: "A-phase cutout top". */
  readonly label: string
  readonly kind: PartKind
  readonly potential: Potential
  readonly from: Point
  readonly to: Point
  /** Half of its width, measured horizontally; heights are those of the line itself. */
  readonly radiusM: number
  readonly surface: 'bare' | 'covered'
  /** A bird of the size of a hawk or larger can stand on it. */
  readonly canPerch: boolean
}

/** A part that can kill: connected to something, and bare. */
export function isElectrode(part: Part): boolean {
  return part.potential !== 'none' && part.surface === 'bare'
}
