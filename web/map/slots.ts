/**
 * Places in the drawing order, lowest first. A layer says `beforeId={SLOTS.marks}` to be drawn in
 * that place, whenever it is added.
 */
export const SLOTS = {
  /** Ground, water, buildings. */
  land: 'slot-land',
  /** Areas of a person: buffers, habitat, keep-outs. */
  areas: 'slot-areas',
  /** Under the feeder: casings, shading along the line. */
  underline: 'slot-underline',
  /** Spans. */
  line: 'slot-line',
  /** Poles and equipment. */
  poles: 'slot-poles',
  /** What a person adds on top: proposals, nests, incidents, finds. */
  marks: 'slot-marks',
  labels: 'slot-labels',
} as const
