import { REGULATOR_MAX_TAP } from '../feeder/equipment.ts'
import { stepV } from './bypass-current.ts'
import type { ReadValue } from './job-entry.ts'
import {
  FIND_THE_WRONG_SIGN,
  finestNeededV,
  isNearZero,
  type NeutralSign,
  SIGN_ORIGINS,
} from './neutral-proof.ts'
import { inUnit, isGiven, type JudgeOf, type ReadAt, type Values, voltsOf } from './read-at.ts'
import type { Asked, Step } from './step-sequence.ts'
import { isBridged, isUnitEnergized, type UnitState } from './unit-state.ts'
import { bad, doubtful, good, type Judged, readNumber } from './verdict.ts'

function saysNeutral(value: ReadValue): boolean {
  if (typeof value === 'number') return value === 0
  if (typeof value === 'boolean') return value
  return /^(at )?(0|n|neutral|zero)$/i.test(value.trim())
}

function saysSteady(value: ReadValue): boolean {
  if (typeof value !== 'string') return value === true
  return /\bstead(y|ily)\b/i.test(value) && !/\b(not|no)\b|\bun/i.test(value)
}

export const positionJudge =
  (from: string): JudgeOf =>
  (value, asked, { plan, states }, step, values) => {
    if (saysNeutral(value)) return good(`${from} stands at neutral.`)
    const off = `${from} does not stand at neutral`
    if (states.some(isBridged)) {
      // Told to run on, somebody would tap a unit whose series winding is shorted.
      return bad(
        `${off}, and source, load and a way past the unit are closed: touch no control and no switch, stand clear and call in.`,
      )
    }
    if (step.action !== 'prove neutral') return bad(`${off}.`)
    return bad(`${off}${whatNext(otherSigns(step, asked, values, plan.bank?.neutralV))}`)
  }

/** What the other signs say that are entered, however coarse the meter: any doubt keeps the unit still. */
function otherSigns(
  { asks }: Step,
  own: Asked,
  values: Values,
  neutralV: number | undefined,
): readonly NeutralSign['says'][] {
  return asks.flatMap((asked) => {
    const value = values[asked.id]
    if (asked.id === own.id || !asked.judge || !SIGN_ORIGINS[asked.judge] || !isGiven(value)) {
      return []
    }
    return isSayingNeutral(asked, value, neutralV) ? 'neutral' : 'off neutral'
  })
}

function isSayingNeutral(asked: Asked, value: ReadValue, neutralV: number | undefined): boolean {
  switch (asked.judge) {
    case 'volts across at neutral': {
      const read = readNumber(value)
      return read !== null && neutralV !== undefined && isNearZero(voltsOf(read, asked), neutralV)
    }
    case 'neutral lamp steady':
      return saysSteady(value)
    default:
      return saysNeutral(value)
  }
}

/** A pointer that sticks would have the unit driven off neutral: it moves only where all signs agree. */
function whatNext(others: readonly NeutralSign['says'][]): string {
  if (others.includes('neutral')) return `, but another sign does: ${FIND_THE_WRONG_SIGN}`
  return others.length === 0
    ? '. Read the other signs before the unit is moved: this one may be wrong.'
    : ', and no other sign says neutral: run the unit on in manual, and read all signs again.'
}

export const judgeLamp: JudgeOf = (value) =>
  saysSteady(value)
    ? good('The neutral lamp is lit steadily.')
    : bad(
        'The neutral lamp is not lit steadily: out or flickering is no neutral. Look at lamp and position before anything is closed.',
      )

export const judgeResolution: JudgeOf = (value, asked, { plan }) => {
  const finestV = readNumber(value)
  if (finestV === null || finestV <= 0)
    return bad('Enter the finest volts that the meter can show.')
  if (!plan.bank) return doubtful('This job has no bank, so there is no step to resolve.')
  const neededV = finestNeededV(plan.bank.neutralV)
  const readV = voltsOf(finestV, asked)
  return readV <= neededV
    ? good(`It resolves half a step (${inUnit(neededV, 'V')}).`)
    : bad(
        `A meter of ${inUnit(readV, 'V')} cannot show one step of ${inUnit(neededV * 2, 'V')}: take one that resolves ${inUnit(neededV, 'V')} or better.`,
      )
}

/** Whether volts across the unit can say anything of its tap. */
export function showsTheTap({ states }: ReadAt): boolean {
  return states.length > 0 && states.every((state) => isUnitEnergized(state) && !isBridged(state))
}

export const judgeAcross: JudgeOf = (value, asked, at, step, values) => {
  const read = readNumber(value)
  if (read === null) return bad('Enter the volts between source and load as a number.')
  if (!at.plan.bank) {
    return doubtful('This job has no bank, so there is no step to hold it against.')
  }
  const { neutralV } = at.plan.bank
  const acrossV = voltsOf(read, asked)
  if (!isNearZero(acrossV, neutralV)) return bad(offNeutralWords(acrossV, neutralV))
  if (!showsTheTap(at)) {
    return good(
      'Near zero, as it is at any tap while the unit is dead or bridged: no sign of neutral.',
    )
  }
  if (isMeterUnknown(step, values)) {
    return doubtful(
      'Near zero, but the resolution of the meter is not entered, so it is no sign yet.',
    )
  }
  const near = `Near zero: less than half a step of ${inUnit(stepV(neutralV), 'V')}.`
  return at.states.some(hasWayPast) ? nearZeroBesideWayPast(step, near) : good(near)
}

/** Volts that no tap makes are another phase, or a meter that is not where it should be. */
function offNeutralWords(acrossV: number, neutralV: number): string {
  const steps = Math.max(1, Math.round(Math.abs(acrossV) / stepV(neutralV)))
  return steps > REGULATOR_MAX_TAP
    ? `${inUnit(acrossV, 'V')} is more than the whole range of a unit: source and load are not the same phase, or the meter is not across the unit. Close nothing before that is found.`
    : `${inUnit(acrossV, 'V')} is about ${steps} ${steps === 1 ? 'step' : 'steps'} of ${inUnit(stepV(neutralV), 'V')} off neutral.`
}

const hasWayPast = ({ isBypassClosed, isJumperOn }: UnitState) => isBypassClosed || isJumperOn

/** From line to line a closed bypass or jumper reads zero at any tap; only the bushings tell. */
function nearZeroBesideWayPast({ action }: Step, near: string): Judged {
  return action === 'prove neutral'
    ? doubtful(
        'Near zero, and a sign only if read from bushing to bushing of the unit.',
        near,
        'From line to line the closed way past the unit reads zero at any tap.',
        'Say in the remark where it was read.',
      )
    : good('Near zero, as it is across a closed way past the unit at any tap: no sign of neutral.')
}

function isMeterUnknown({ asks }: Step, values: Values): boolean {
  const meter = asks.find(({ judge }) => judge === 'resolution of the meter')
  return meter !== undefined && !isGiven(values[meter.id])
}
