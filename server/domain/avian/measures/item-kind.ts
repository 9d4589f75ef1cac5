import type { Protection } from '../../feeder/birds.ts'
import type { MeasureKind } from '../../feeder/measure-kinds.ts'

/** As what kind of item a measure is kept once it is on the pole. */
export const KIND_OF_ITEM: Readonly<Record<MeasureKind, Protection['kind']>> = {
  'bushing cover': 'cover',
  'cutout cover': 'cover',
  'arrester cap': 'cover',
  'insulated jumper': 'cover',
  'conductor cover': 'cover',
  'dead-end cover': 'cover',
  'ground-wire moulding': 'guard',
  'raised perch': 'perch',
  'perch deterrent': 'guard',
  'longer arm': 'change of the framing',
  'lowered arm': 'change of the framing',
  'pole-top extension': 'change of the framing',
  'suspended insulators': 'change of the framing',
  'nest platform': 'perch',
  'equipment moved to the ground': 'change of the framing',
}
