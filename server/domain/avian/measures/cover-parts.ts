import type { MeasureKind } from '../../feeder/measure-kinds.ts'
import type { Part, PartKind } from '../pole-top/part.ts'

/**
 * What each kind of cover can be put on. Switch blades are in none: they must be free to move and
 * their position seen. Tanks, brackets and steel arms cannot be covered against a bird.
 */
const COVERABLE = {
  'bushing cover': ['bushing', 'terminator'],
  'cutout cover': ['cutout'],
  'arrester cap': ['arrester'],
  'insulated jumper': ['jumper'],
  'conductor cover': ['conductor', 'insulator', 'neutral'],
  'dead-end cover': ['dead-end clamp'],
  'ground-wire moulding': ['ground wire', 'guy', 'brace'],
} as const satisfies Partial<Record<MeasureKind, readonly PartKind[]>>

export type CoverKind = keyof typeof COVERABLE
export const COVER_KINDS = Object.keys(COVERABLE) as readonly CoverKind[]

const KIND_OF_PART: ReadonlyMap<PartKind, CoverKind> = new Map(
  COVER_KINDS.flatMap((cover) =>
    COVERABLE[cover].map((part): [PartKind, CoverKind] => [part, cover]),
  ),
)

export function isCoverKind(kind: MeasureKind): kind is CoverKind {
  return kind in COVERABLE
}

/** The cover that fits a part; null where none does. */
export function coverFor({ kind, potential }: Part): CoverKind | null {
  return potential === 'none' ? null : (KIND_OF_PART.get(kind) ?? null)
}
