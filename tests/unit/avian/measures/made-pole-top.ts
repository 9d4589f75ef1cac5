import { Protection } from '#domain/feeder/birds.ts'
import type {
  Part,
  PartKind,
  Point,
  Potential,
} from '../../../../server/domain/avian/pole-top/part.ts'
import type { PoleTop } from '../../../../server/domain/avian/pole-top/pole-top.ts'

const IN = 0.0254

export interface PlainPart {
  readonly id: string
  readonly kind: PartKind
  readonly potential: Potential
  /** Inches; one point stands for a small part. */
  readonly at: Point
  readonly to?: Point
  readonly label?: string
  readonly canPerch?: boolean
}

export function madePart({ at, to = at, label, canPerch, ...rest }: PlainPart): Part {
  const metres = ([x, y, z]: Point): Point => [x * IN, y * IN, z * IN]
  return {
    ...rest,
    label: label ?? rest.id,
    from: metres(at),
    to: metres(to),
    radiusM: 0,
    surface: 'bare',
    canPerch: canPerch ?? false,
  }
}

export function madePoleTop(parts: readonly PlainPart[]): PoleTop {
  return { poleId: 'P-1', framing: 'pole-top pin', parts: parts.map(madePart), assumptions: [] }
}

/** A pole with a transformer per phase named, each with cutout, arrester, bushing and jumper. */
export function transformerPole(phases: readonly ('A' | 'B' | 'C')[] = ['A']): PoleTop {
  return madePoleTop([
    {
      id: 'pole',
      kind: 'pole',
      potential: 'none',
      at: [0, 0, 0],
      to: [0, 0, -180],
      canPerch: true,
    },
    ...phases.flatMap((phase, index): PlainPart[] => {
      const x = (index - (phases.length - 1) / 2) * 24
      const part = (name: string, kind: PartKind, z: number): PlainPart => ({
        id: `t-${phase}-${name}`,
        label: `${phase}-phase transformer ${name}`,
        kind,
        potential: phase,
        at: [x, 16, z],
      })
      return [
        { ...part('tank', 'tank', -60), potential: 'grounded', canPerch: true },
        part('bushing', 'bushing', -50),
        { ...part('cutout', 'cutout', -24), label: `${phase}-phase cutout top` },
        { ...part('arrester', 'arrester', -36), label: `${phase}-phase arrester top` },
        { ...part('lead', 'jumper', -30), to: [x, 16, -50], label: `${phase}-phase jumper` },
      ]
    }),
  ])
}

export function item(what: string, rest: Partial<Protection> = {}): Protection {
  return Protection.parse({
    id: 'item-1',
    pole: 'P-1',
    kind: 'cover',
    what,
    state: 'on',
    on: '2020-05-01',
    ...rest,
  })
}
