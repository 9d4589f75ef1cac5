import { setsUnits } from './is-bank-kind.ts'
import type { JobKind } from './job-kind.ts'
import { isBridged, isThroughUnit, type UnitState } from './unit-state.ts'

interface Leftover {
  readonly isSo: (state: UnitState) => boolean
  readonly words: string
}

const LEFTOVERS: readonly Leftover[] = [
  { isSo: ({ isGrounded }) => isGrounded, words: 'grounds are still on' },
  {
    isSo: (state) => isThroughUnit(state) && state.isBypassClosed,
    words: 'it is in service with its bypass closed',
  },
  // Where no unit hangs there the jumper may be the line that stays.
  {
    isSo: ({ isJumperOn, isUp, isBypassClosed }) => isJumperOn && (isUp || isBypassClosed),
    words: 'the temporary jumper is still on',
  },
  {
    isSo: ({ isSourceClosed, isLoadClosed }) => isSourceClosed !== isLoadClosed,
    words: 'only one of source and load switch is closed',
  },
  {
    isSo: (state) => isThroughUnit(state) && !isBridged(state) && !state.isDriveOperative,
    words: 'it is in service and its tap drive is not restored',
  },
]

/** How a unit must not be left when the crew says that the work is done; empty where it may be. */
export function leftUnsafe(kind: JobKind, state: UnitState): string[] {
  const left = LEFTOVERS.filter(({ isSo }) => isSo(state)).map(({ words }) => words)
  if (setsUnits(kind) && !isThroughUnit(state)) return [...left, 'it does not carry the line']
  const isToGo = kind === 'remove a bank'
  return isToGo && isThroughUnit(state) ? [...left, 'it still carries the line'] : left
}
