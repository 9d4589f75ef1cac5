import { expectedWindow, type Window } from './expected-window.ts'
import { inUnit, isGiven, type JudgeOf, type ReadAt, unitOf, type Values } from './read-at.ts'
import type { Asked, Step } from './step-sequence.ts'
import { bad, doubtful, good, type Judged, readNumber } from './verdict.ts'

/** Below this a clamp on a stick may show nothing although a line carries: an assumption, amperes. */
const HARDLY_ANY_A = 1

const NO_NUMBER = 'Enter the current as a number, not below zero.'
const NO_SHARE =
  'It carries nothing: leave every other way of the line closed, and look at clamps, blades and the meter.'
const NO_LINE =
  'It carries nothing, so customers beyond may be out: open and loosen nothing, look at clamps, blades and the meter, and call in.'

function readAmps(value: Parameters<JudgeOf>[0]): number | null {
  const amps = readNumber(value)
  return amps === null || amps < 0 ? null : amps
}

/** All of the current that the line draws, on whatever way it goes. */
function lineWindow({ plan, phases }: ReadAt, asked: Asked): Window | null {
  return expectedWindow({
    ...{ plan, phases, judge: 'current as expected', unit: unitOf(asked) },
    while: { isSameBothSides: true, isBridged: false },
  })
}

/** A way that reads zero is none, unless the line may draw next to nothing. */
function nothing(window: Window | null, otherwise: string): Judged {
  return window && window.low < HARDLY_ANY_A
    ? doubtful(
        'Nothing is read, and the line may draw that little: prove in another way that it carries.',
        'Say in the remark how.',
      )
    : bad(otherwise)
}

/** Beside another closed way, current divides as it likes. */
export const judgeShare: JudgeOf = (value, asked, at) => {
  const amps = readAmps(value)
  if (amps === null) return bad(NO_NUMBER)
  return amps === 0 ? nothing(lineWindow(at, asked), NO_SHARE) : good('It carries its share.')
}

/** Of a way that carries the line alone. */
export const judgeCarries: JudgeOf = (value, asked, at) => {
  const amps = readAmps(value)
  if (amps === null) return bad(NO_NUMBER)
  const window = lineWindow(at, asked)
  if (amps === 0) return nothing(window, NO_LINE)
  if (!window) return good('It carries current; the plan expects no figure here.')
  const { low, high, basis } = window
  const span = `the expected ${inUnit(low, '')} to ${inUnit(high, 'A')}`
  const from = `Expected from ${basis}, an assumption.`
  return amps >= low && amps <= high
    ? good(`It carries; ${inUnit(amps, 'A')} lies in ${span}.`, from)
    : doubtful(
        `${inUnit(amps, 'A')} is ${amps < low ? 'below' : 'above'} ${span}.`,
        amps < low
          ? 'Some of the current may go another way.'
          : 'Look at the load, and at what this way is rated for.',
        'Say in the remark what it was.',
        from,
      )
}

/** Of what is to carry the line: above what was read in the same step, and above what is expected. */
export const judgeRating: JudgeOf = (value, asked, at, step, values) => {
  const ratingA = readNumber(value)
  if (ratingA === null || ratingA <= 0)
    return bad('Enter the rating that is marked on it, above 0 A.')
  const nowA = currentRead(step, values)
  if (nowA !== null && ratingA <= nowA) {
    return bad(
      `Rated ${inUnit(ratingA, 'A')}, and ${inUnit(nowA, 'A')} flow now: it is not to carry the line.`,
    )
  }
  const window = lineWindow(at, asked)
  if (window && ratingA <= window.high) {
    return doubtful(
      `Rated ${inUnit(ratingA, 'A')}; up to ${inUnit(window.high, 'A')} are expected.`,
      'Take one of a higher rating, or say in the remark why the load stays below it.',
    )
  }
  return good('Rated above the current, read and expected.')
}

function currentRead({ asks }: Step, values: Values): number | null {
  const current = asks.find(({ judge }) => judge === 'current as expected')
  const value = current && values[current.id]
  return isGiven(value) ? readNumber(value) : null
}
