import { M_PER_IN } from '#domain/units/length.ts'
import type { Part, PartKind, Point, Potential } from './part.ts'

/** Inches, as framing drawings give them: x across the line, y along it, z up from the pole top. */
export type PointIn = readonly [xIn: number, yIn: number, zIn: number]

export interface PartDraft {
  readonly id: string
  readonly label: string
  readonly kind: PartKind
  readonly potential: Potential
  readonly from: PointIn
  /** The same as `from` for a part so small that a point stands for it. */
  readonly to?: PointIn
  readonly widthIn?: number
  readonly canPerch?: boolean
}

export function drawPart(draft: PartDraft): Part {
  const { id, label, kind, potential, from, to = from, widthIn = 0, canPerch } = draft
  return {
    id,
    label,
    kind,
    potential,
    from: metres(from),
    to: metres(to),
    radiusM: (widthIn / 2) * M_PER_IN,
    surface: 'bare',
    canPerch: canPerch ?? false,
  }
}

const WIRE_IN = 0.5

/**
 * A wire through several points, one straight part between each two. Its parts share the id, with a
 * number behind it where they are more than one.
 */
export function drawWire(
  { id, ...rest }: Omit<PartDraft, 'from' | 'to' | 'widthIn' | 'canPerch'>,
  through: readonly PointIn[],
): Part[] {
  return through.slice(1).map((to, index) =>
    drawPart({
      ...rest,
      id: through.length > 2 ? `${id}-${index + 1}` : id,
      from: through[index] ?? to,
      to,
      widthIn: WIRE_IN,
    }),
  )
}

function metres([x, y, z]: PointIn): Point {
  return [x * M_PER_IN, y * M_PER_IN, z * M_PER_IN]
}
