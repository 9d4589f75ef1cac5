import { M_PER_IN } from '#domain/units/length.ts'
import type { Part } from '../pole-top/part.ts'
import type { PoleSite, PoleTop } from '../pole-top/pole-top.ts'
import { poleTopOf } from '../pole-top/pole-top-of.ts'
import { coverFor, isCoverKind } from './cover-parts.ts'
import { lineShape } from './line-shape.ts'
import type { MeasureUse } from './measure.ts'
import { isFramingUse, reframeSite } from './reframe-site.ts'

/** 14 to 16 in above the conductors (older practice of a wildlife health centre). */
const PERCH_ABOVE_PHASE_M = 15 * M_PER_IN
const PERCH_LENGTH_M = 24 * M_PER_IN
const PERCH_RADIUS_M = 1 * M_PER_IN

/**
 * The pole top with measures on it. A change of the framing draws it anew, and what was covered
 * stays covered where the part is still there. A deterrent and a nest platform change nothing here:
 * a bird that gets past a deterrent stands where it always stood.
 */
export function applyMeasures(site: PoleSite, top: PoleTop, uses: readonly MeasureUse[]): PoleTop {
  if (uses.length === 0) return top
  const framed = reframed(site, top, uses)
  const covered = new Set(
    uses
      .filter(({ kind }) => isCoverKind(kind))
      .flatMap(({ kind, partIds }) => partIds.map((id) => `${kind}/${id}`)),
  )
  const parts = framed.parts.map((part) =>
    covered.has(`${coverFor(part)}/${part.id}`) ? { ...part, surface: 'covered' as const } : part,
  )
  const hasPerch = uses.some(({ kind }) => kind === 'raised perch')
  return { ...framed, parts: hasPerch ? withPerch(parts, framed) : parts }
}

/** One change after the other, so that a longer arm can also be lowered. */
function reframed(site: PoleSite, top: PoleTop, uses: readonly MeasureUse[]): PoleTop {
  const changes = uses.filter(isFramingUse)
  const drawn = changes.length > 0 ? poleTopOf(changes.reduce(reframeSite, site)) : null
  if (!drawn) return top
  const covered = new Set(
    top.parts.flatMap(({ id, surface }) => (surface === 'covered' ? [id] : [])),
  )
  return {
    ...drawn,
    parts: drawn.parts.map((part) =>
      covered.has(part.id) ? { ...part, surface: 'covered' as const } : part,
    ),
  }
}

function withPerch(parts: readonly Part[], top: PoleTop): readonly Part[] {
  if (parts.some(({ id }) => id === RAISED_PERCH_ID)) return parts
  const zM = Math.max(0, lineShape(top)?.topPinM ?? 0) + PERCH_ABOVE_PHASE_M
  return [
    ...parts,
    {
      id: RAISED_PERCH_ID,
      label: 'raised perch',
      kind: 'perch',
      potential: 'none',
      from: [-PERCH_LENGTH_M / 2, 0, zM],
      to: [PERCH_LENGTH_M / 2, 0, zM],
      radiusM: PERCH_RADIUS_M,
      surface: 'bare',
      canPerch: true,
    },
  ]
}

const RAISED_PERCH_ID = 'raised-perch'
