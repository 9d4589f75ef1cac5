import type { PoleState } from '#domain/avian/assessment/pole-assessment.ts'

export interface StateShape {
  readonly outline: string
  /** What of it is filled; empty for a hollow shape. */
  readonly fill: string
}

const TRIANGLE = 'M12 3 22 20.5H2Z'
const ROUND = 'M12 6A6 6 0 1 1 12 18A6 6 0 1 1 12 6Z'
const POINTING_DOWN = 'M12 21 2 3.5H22Z'

/**
 * Shapes of the states on a grid of 24, the same in lists and on the map. A triangle asks for
 * work, a round one for none, a square for measuring; pointing down it is one that has failed.
 */
export const POLE_STATE_SHAPES: Readonly<Record<PoleState, StateShape>> = {
  separated: { outline: ROUND, fill: '' },
  covered: { outline: ROUND, fill: ROUND },
  'partly done': { outline: TRIANGLE, fill: 'M12 3V20.5H2Z' },
  open: { outline: TRIANGLE, fill: TRIANGLE },
  failed: { outline: POINTING_DOWN, fill: POINTING_DOWN },
  unknown: { outline: 'M5 5H19V19H5Z', fill: '' },
}
