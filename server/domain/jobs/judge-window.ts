import {
  expectedWindow,
  isOn120,
  mistakesThatFit,
  type Outside,
  type WindowJudge,
  type WindowRead,
} from './expected-window.ts'
import type { JobKind } from './job-kind.ts'
import type { JobPlan } from './job-plan.ts'
import { inUnit, type JudgeOf, unitOf } from './read-at.ts'
import type { Step } from './step-sequence.ts'
import { isBridged, isOffTheLine, isThroughUnit, type UnitState } from './unit-state.ts'
import { bad, doubtful, good, type Judged, readNumber } from './verdict.ts'

const CHANGES_A_BANK: readonly JobKind[] = [
  'change out a bank',
  'change settings',
  'take a bank out of service',
  'return a bank to service',
]
const AS_IT_IS_TO_STAND =
  'It was worked out for the bank as it is to stand: until then it may read otherwise.'

/** Holds volts and amperes against what the power flow expects. */
export const windowJudge =
  (judge: WindowJudge): JudgeOf =>
  (given, asked, at, step) => {
    const value = readNumber(given)
    if (value === null || value < 0) return bad('Enter the reading as a number, not below zero.')
    const unit = unitOf(asked)
    if (isLineVolts(value, unit)) return doubtful(lineVolts(value))
    const plan = step.readsAsFound ? planAsFound(at.plan) : at.plan
    const read: WindowRead = {
      ...{ plan, judge, phases: at.phases, unit },
      while: readWhile(at.states),
    }
    const window = expectedWindow(read)
    if (!window) {
      return doubtful(
        'The plan expects no figure here to hold it against.',
        'Say in the remark how it was checked.',
      )
    }
    const { low, high, basis } = window
    const judged =
      value < low || value > high
        ? outside({ ...read, value, window }, at.plan, step)
        : good(`${inUnit(value, unit)} lies in the expected ${span(low, high, unit)}.`, from(basis))
    const over = aboveRating(value, read, at.states)
    return over ? { ...judged, words: `${judged.words} ${over}` } : judged
  }

/** No control shows as much on the 120 base. */
const MOST_VOLTS_ON_120 = 200

const isLineVolts = (value: number, unit: string) => isOn120(unit) && value > MOST_VOLTS_ON_120

const lineVolts = (value: number) =>
  `${inUnit(value, 'V')} reads like volts of the line: enter them as the control shows them, about 120.`

/**
 * Named where a unit carries more than it is made for, expected or not; beside a way past it nobody can
 * tell its share. What is expected still passes: the plan has weighed it.
 */
function aboveRating(
  amps: number,
  { judge, plan, unit }: WindowRead,
  states: readonly UnitState[],
): string | null {
  const ratingA = plan.bank?.regulator.ratingA
  const isOfUnit =
    states.length > 0 && states.every((each) => isThroughUnit(each) && !isBridged(each))
  if (judge !== 'current as expected' || !/^A$/i.test(unit.trim()) || !isOfUnit) return null
  return ratingA !== undefined && amps > ratingA
    ? `It is above the ${inUnit(ratingA, 'A')} that one unit is rated for: tell the dispatcher.`
    : null
}

const span = (low: number, high: number, unit: string) =>
  `${inUnit(low, '')} to ${inUnit(high, unit)}`
const from = (basis: string) => `Expected from ${basis}, an assumption.`

function outside(read: Outside, plan: JobPlan, step: Step): Judged {
  const { value, unit } = read
  const { low, high, basis } = read.window
  // Before anything is changed the crew has made no mistake yet.
  const fitting = step.readsAsFound ? [] : mistakesThatFit(read)
  return doubtful(
    `${inUnit(value, unit)} is ${value < low ? 'below' : 'above'} the expected ${span(low, high, unit)}.`,
    ...fitting.map(
      ({ mistake, phase, signs }) =>
        `It would fit ${mistake}${phase ? ` at unit ${phase}` : ''}: ${signs[0]}`,
    ),
    ...(mayReadOtherwise(plan, step) ? [AS_IT_IS_TO_STAND] : []),
    'Look before going on, and say in the remark what it was.',
    from(basis),
  )
}

/** The bank as it stands, with what is expected of it; where that is the same, the plan has it once. */
function planAsFound(plan: JobPlan): JobPlan {
  const { bank, expected, expectedFound = expected } = plan
  const found = { ...plan, expected: expectedFound }
  return bank?.standing ? { ...found, bank: { ...bank, regulator: bank.standing } } : found
}

/** Older plans and older orders do not tell what is read of the bank as it stands. */
function mayReadOtherwise({ kind, expectedFound }: JobPlan, { readsAsFound }: Step): boolean {
  return expectedFound === undefined && readsAsFound !== false && CHANGES_A_BANK.includes(kind)
}

function readWhile(states: readonly UnitState[]) {
  const isEach = (isSo: (state: UnitState) => boolean) => states.length > 0 && states.every(isSo)
  return {
    isSameBothSides: isEach((state) => state.tap !== 'unknown' || isOffTheLine(state)),
    isBridged: states.some(isBridged),
  }
}
