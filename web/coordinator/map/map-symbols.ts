import type { PoleState } from '#domain/avian/assessment/pole-assessment.ts'
import { POLE_STATE_SHAPES, type StateShape } from '../../birds/pole-state-shapes.ts'

const hollow = (outline: string): StateShape => ({ outline, fill: '' })
const filled = (outline: string): StateShape => ({ outline, fill: outline })

/**
 * Symbols of the coordinator's map, drawn for this project on a grid of 24. Shape tells the kind,
 * so that no meaning hangs on colour alone.
 */
export const MAP_SYMBOLS = {
  'pole-separated': POLE_STATE_SHAPES.separated,
  'pole-covered': POLE_STATE_SHAPES.covered,
  'pole-partly-done': POLE_STATE_SHAPES['partly done'],
  'pole-open': POLE_STATE_SHAPES.open,
  'pole-failed': POLE_STATE_SHAPES.failed,
  'pole-unknown': POLE_STATE_SHAPES.unknown,
  'nest-in-use': filled('M2 11H22L18 18H6ZM9 8A3 3 0 1 1 15 8'),
  'nest-not-in-use': hollow('M2 11H22L18 18H6Z'),
  'incident-electrocution': filled('M13 2 5 13H11L9 22 19 10H13Z'),
  'incident-other': hollow('M5 5 19 19M19 5 5 19'),
  'item-planned': hollow('M5 5H19V19H5Z'),
  'item-on': hollow('M4 12 10 18 20 6'),
  'item-failed': hollow('M5 5 19 19M19 5 5 19'),
  'item-removed': hollow('M5 12H19'),
} as const satisfies Readonly<Record<string, StateShape>>

export type SymbolName = keyof typeof MAP_SYMBOLS

const OF_STATE: Readonly<Record<PoleState, SymbolName>> = {
  separated: 'pole-separated',
  covered: 'pole-covered',
  'partly done': 'pole-partly-done',
  open: 'pole-open',
  failed: 'pole-failed',
  unknown: 'pole-unknown',
}

export const symbolOfState = (state: PoleState): SymbolName => OF_STATE[state]
