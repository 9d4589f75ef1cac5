import { STEP_PU } from './bypass-current.ts'
import { inUnit, isGiven, type JudgeOf, unitOf, type Values } from './read-at.ts'
import type { Asked, Step } from './step-sequence.ts'
import { bad, doubtful, good, readNumber } from './verdict.ts'

/** Share of what the steps should make that still counts as following: an assumption. */
const FOLLOWS = { least: 0.5, most: 1.5 }

/** The volts before the unit was tapped, by which those after it are told. */
export const baseOf = ({ asks }: Pick<Step, 'asks'>): Asked | undefined =>
  asks.find(({ judge }) => judge === 'source volts as expected')

/** How many steps were tapped before a reading: the last count that is asked for ahead of it. */
export const countOf = ({ asks }: Pick<Step, 'asks'>, { id }: Asked): Asked | undefined =>
  asks
    .slice(
      0,
      asks.findIndex((asked) => asked.id === id),
    )
    .findLast((asked) => asked.kind === 'number' && /^steps?$/i.test(asked.unit.trim()))

/**
 * Volts after some steps from neutral, against those at neutral in the same unit; each step is 5/8 %
 * of them. Raise that lowers is stopped: leads or polarity are wrong.
 */
export const tapJudge =
  (way: 'raise' | 'lower'): JudgeOf =>
  (value, asked, _at, step, values) => {
    const volts = readNumber(value)
    if (volts === null || volts <= 0) return bad('Enter the volts as they are read.')
    const base = numberOf(baseOf(step), values)
    if (base === null || base <= 0) {
      return doubtful(
        'The volts at neutral are not entered, so nothing tells whether these follow.',
      )
    }
    const change = volts - base
    const along = way === 'raise' ? change : -change
    if (along <= 0) return bad(wrongWay(way, change, asked))
    const steps = numberOf(countOf(step, asked), values)
    if (steps === null || steps <= 0) return good('The volts follow.')
    const due = steps * STEP_PU * base
    const made = `${inUnit(along, unitOf(asked))} over ${inUnit(steps, steps === 1 ? 'step' : 'steps')}`
    return along >= FOLLOWS.least * due && along <= FOLLOWS.most * due
      ? good(`The volts follow: ${made}.`)
      : doubtful(
          `${made}, where ${inUnit(due, unitOf(asked))} would be made.`,
          'Look at the count of steps, at the meter and at the ratio, and say in the remark what it was.',
        )
  }

function wrongWay(way: 'raise' | 'lower', change: number, asked: Asked): string {
  const did =
    change === 0
      ? 'do not move'
      : `${change > 0 ? 'rise' : 'fall'} by ${inUnit(Math.abs(change), unitOf(asked))}`
  return `The volts ${did} on ${way}: close no other switch. Leads, polarity or the meter are wrong: call in.`
}

function numberOf(asked: Asked | undefined, values: Values): number | null {
  const value = asked && values[asked.id]
  return isGiven(value) ? readNumber(value) : null
}
