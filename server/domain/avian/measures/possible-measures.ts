import type { MeasureKind } from '../../feeder/measure-kinds.ts'
import type { PoleSite, PoleTop } from '../pole-top/pole-top.ts'
import { designSpecies, sizeOf } from '../species/shipped-species.ts'
import { COVER_KINDS, coverFor } from './cover-parts.ts'
import { framingChanges } from './framing-changes.ts'
import type { MeasureUse } from './measure.ts'

/** Kinds that close no pair, and can be set on any pole. */
const CLOSING_NOTHING: readonly MeasureKind[] = ['raised perch', 'perch deterrent', 'nest platform']

/** Everything that can be done to a pole top as it stands, each kind on all parts that it fits. */
export function possibleMeasures(site: PoleSite, top: PoleTop): MeasureUse[] {
  return [
    ...coversThatFit(top),
    ...framingChanges(top, sizeOf(designSpecies())),
    ...movingEquipment(site, top),
    ...CLOSING_NOTHING.map((kind) => ({
      kind,
      partIds: kind === 'perch deterrent' ? perches(top) : [],
    })),
  ]
}

function coversThatFit({ parts }: PoleTop): MeasureUse[] {
  return COVER_KINDS.flatMap((kind) => {
    const fitting = parts.filter((part) => part.surface === 'bare' && coverFor(part) === kind)
    return fitting.length > 0 ? [{ kind, partIds: fitting.map(({ id }) => id) }] : []
  })
}

/** All that hangs on the pole and brings parts to its top. */
export function movingEquipment({ equipment }: PoleSite, { parts }: PoleTop): MeasureUse[] {
  const partIds = parts
    .map(({ id }) => id)
    .filter((part) => equipment.some(({ id }) => part.startsWith(`${id}-`)))
  return partIds.length > 0 ? [{ kind: 'equipment moved to the ground', partIds }] : []
}

function perches({ parts }: PoleTop): string[] {
  return parts.flatMap(({ id, canPerch }) => (canPerch ? [id] : []))
}
