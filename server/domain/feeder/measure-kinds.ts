/** What can be done to a pole. The first nine put something on parts, the others change or move them. */
export const MEASURE_KINDS = [
  'bushing cover',
  'cutout cover',
  'arrester cap',
  'insulated jumper',
  'conductor cover',
  'dead-end cover',
  'ground-wire moulding',
  'raised perch',
  'perch deterrent',
  'longer arm',
  'lowered arm',
  'pole-top extension',
  'suspended insulators',
  'nest platform',
  'equipment moved to the ground',
] as const
export type MeasureKind = (typeof MEASURE_KINDS)[number]
