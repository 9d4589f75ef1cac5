import type { JobKind } from './job-kind.ts'
import { isBridged, isOffTheLine, isThroughUnit, type UnitState } from './unit-state.ts'

interface Leftover {
  readonly isSo: (state: UnitState) => boolean
  readonly words: string
}

/** What no job leaves behind. */
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

const IN_SERVICE: readonly Leftover[] = [
  { isSo: (state) => !isThroughUnit(state), words: 'it does not carry the line' },
]

const STILL_CARRIES: Leftover = { isSo: isThroughUnit, words: 'it still carries the line' }

/** As the next crew takes it to hang there; see `unit-state.ts`. */
const BYPASSED: readonly Leftover[] = [
  STILL_CARRIES,
  { isSo: ({ isUp }) => !isUp, words: 'no unit hangs there' },
  { isSo: ({ isBypassClosed }) => !isBypassClosed, words: 'its bypass is not closed' },
  {
    isSo: (state) => isOffTheLine(state) && state.neutralSide === 'closed',
    words: 'its neutral-side switch is still closed',
  },
  {
    isSo: ({ isDriveOperative }) => isDriveOperative,
    words: 'its tap drive is not made inoperative',
  },
]

const OFF_THE_POLE: readonly Leftover[] = [
  STILL_CARRIES,
  { isSo: (state) => state.isUp && !isThroughUnit(state), words: 'it still hangs there' },
]

/** What the end of each kind of job asks for; `as found` where the job is on no bank. */
const ENDS: Readonly<Record<JobKind, readonly Leftover[] | 'as found'>> = {
  'set a bank': IN_SERVICE,
  'change out a bank': IN_SERVICE,
  'change settings': IN_SERVICE,
  'return a bank to service': IN_SERVICE,
  'take a bank out of service': BYPASSED,
  'remove a bank': OFF_THE_POLE,
  'retrofit round': 'as found',
  inspection: 'as found',
}

const STANDING = [
  'isUp',
  'isSourceClosed',
  'isLoadClosed',
  'neutralSide',
  'isBypassClosed',
] as const satisfies readonly (keyof UnitState)[]

/**
 * How a unit must not be left when the crew says that the work is done; empty where it may be.
 *
 * @param start how it stood before the first step
 */
export function leftUnsafe(kind: JobKind, state: UnitState, start: UnitState): string[] {
  const end = ENDS[kind]
  const asked = end === 'as found' ? [asFound(start)] : end
  return [...LEFTOVERS, ...asked].filter(({ isSo }) => isSo(state)).map(({ words }) => words)
}

const asFound = (start: UnitState): Leftover => ({
  isSo: (state) => STANDING.some((part) => state[part] !== start[part]),
  words: 'it does not stand as it was found, and no job of this kind says so in the record',
})
