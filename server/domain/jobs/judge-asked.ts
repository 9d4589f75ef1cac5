import type { Phase } from '#domain/units/phases.ts'
import { REGULATOR_MAX_TAP } from '../feeder/equipment.ts'
import { stepV } from './bypass-current.ts'
import { expectedWindow, mistakesThatFit, type WindowJudge } from './expected-window.ts'
import type { ReadValue } from './job-entry.ts'
import type { JobKind } from './job-kind.ts'
import type { JobPlan } from './job-plan.ts'
import {
  finestNeededV,
  isNearZero,
  type NeutralProof,
  type NeutralSign,
  neutralProof,
  SIGN_ORIGINS,
} from './neutral-proof.ts'
import type { Asked, JudgeName, Step } from './step-sequence.ts'
import { judgeTorque } from './torque.ts'
import { isBridged, isUnitEnergized, type UnitState } from './unit-state.ts'
import { type Judged, readNumber } from './verdict.ts'

/** The units that a step is about, and how they stand while it is done. */
export interface ReadAt {
  readonly plan: JobPlan
  readonly phases: readonly Phase[]
  readonly states: readonly UnitState[]
}

type Values = Readonly<Record<string, ReadValue>>
type JudgeOf = (value: ReadValue, asked: Asked, at: ReadAt, step: Step, values: Values) => Judged

const good = (words: string): Judged => ({ verdict: 'good', words })
const doubtful = (words: string): Judged => ({ verdict: 'doubtful', words })
const bad = (words: string): Judged => ({ verdict: 'bad', words })

const unitOf = (asked: Asked) => (asked.kind === 'number' ? asked.unit : '')
const inUnit = (value: number, unit: string) =>
  `${Number(value.toFixed(Math.abs(value) < 1000 ? 1 : 0))} ${unit}`.trim()

function saysNeutral(value: ReadValue): boolean {
  if (typeof value === 'number') return value === 0
  if (typeof value === 'boolean') return value
  return /^(at )?(0|n|neutral|zero)$/i.test(value.trim())
}

function saysSteady(value: ReadValue): boolean {
  if (typeof value !== 'string') return value === true
  return /\bstead(y|ily)\b/i.test(value) && !/\b(not|no)\b|\bun/i.test(value)
}

const positionJudge =
  (from: string): JudgeOf =>
  (value, _asked, { states }) => {
    if (saysNeutral(value)) return good(`${from} stands at neutral.`)
    // Told to run on, somebody would tap a unit whose series winding is shorted.
    return bad(
      states.some(isBridged)
        ? `${from} does not stand at neutral, and source, load and a way past the unit are closed: touch no control and no switch, stand clear and call in.`
        : `${from} does not stand at neutral. Run the unit on in manual until it does.`,
    )
  }

const judgeLamp: JudgeOf = (value) =>
  saysSteady(value)
    ? good('The neutral lamp is lit steadily.')
    : bad(
        'The neutral lamp is not lit steadily: out or flickering is no neutral. Look at lamp and position before anything is closed.',
      )

const judgeResolution: JudgeOf = (value, asked, { plan }) => {
  const finestV = readNumber(value)
  if (finestV === null || finestV <= 0) return bad('Enter the smallest volts that the meter shows.')
  if (!plan.bank) return doubtful('This job has no bank, so there is no step to resolve.')
  const neededV = finestNeededV(plan.bank.neutralV)
  const readV = unitOf(asked).toLowerCase() === 'kv' ? finestV * 1000 : finestV
  return readV <= neededV
    ? good(`It resolves half a step (${inUnit(neededV, 'V')}).`)
    : bad(
        `A meter of ${inUnit(readV, 'V')} cannot show one step of ${inUnit(neededV * 2, 'V')}: take one that resolves ${inUnit(neededV, 'V')} or better.`,
      )
}

/** Whether volts across the unit can say anything of its tap. */
function showsTheTap({ states }: ReadAt): boolean {
  return states.length > 0 && states.every((state) => isUnitEnergized(state) && !isBridged(state))
}

const judgeAcross: JudgeOf = (value, asked, at, step, values) => {
  const read = readNumber(value)
  if (read === null) return bad('Enter the volts between source and load as a number.')
  if (!at.plan.bank)
    return doubtful('This job has no bank, so there is no step to hold it against.')
  const { neutralV } = at.plan.bank
  const acrossV = unitOf(asked).toLowerCase() === 'kv' ? read * 1000 : read
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
        `${near} It is a sign only if read from bushing to bushing of the unit: from line to line the closed way past it reads zero at any tap. Say in the remark where it was read.`,
      )
    : good('Near zero, as it is across a closed way past the unit at any tap: no sign of neutral.')
}

const meterOf = (step: Step) => step.asks.find(({ judge }) => judge === 'resolution of the meter')

function isMeterUnknown(step: Step, values: Values): boolean {
  const meter = meterOf(step)
  return meter !== undefined && !isGiven(values[meter.id])
}

const CHANGES_A_BANK: readonly JobKind[] = ['change out a bank', 'change settings']
const AS_IT_IS_TO_STAND =
  'It was worked out for the bank as it is to stand: until then the old settings may read otherwise.'

const windowJudge =
  (judge: WindowJudge): JudgeOf =>
  (given, asked, at) => {
    const value = readNumber(given)
    if (value === null || value < 0) return bad('Enter the reading as a number, not below zero.')
    const unit = unitOf(asked)
    const { plan, phases, states } = at
    const readWhile = {
      isAtNeutral: states.length > 0 && states.every(({ tap }) => tap !== 'unknown'),
      isBridged: states.some(isBridged),
    }
    const window = expectedWindow(plan, judge, phases, unit, readWhile)
    if (!window) {
      return doubtful(
        'The plan expects no figure here to hold it against. Say in the remark how it was checked.',
      )
    }
    const span = `${inUnit(window.low, '')} to ${inUnit(window.high, unit)}`
    const basis = `(${window.basis}, an assumption)`
    if (value >= window.low && value <= window.high) {
      return good(`${inUnit(value, unit)} lies in the expected ${span} ${basis}.`)
    }
    const fitting = mistakesThatFit({ plan, judge, phases, unit, while: readWhile, value, window })
    const where = value < window.low ? 'below' : 'above'
    return doubtful(
      [
        `${inUnit(value, unit)} is ${where} the expected ${span} ${basis}.`,
        ...fitting.map(
          ({ mistake, phase, signs }) =>
            `It would fit ${mistake}${phase ? ` at unit ${phase}` : ''}: ${signs[0]}`,
        ),
        ...(CHANGES_A_BANK.includes(plan.kind) ? [AS_IT_IS_TO_STAND] : []),
        'Look before going on, and say in the remark what it was.',
      ].join(' '),
    )
  }

const judgeYes: JudgeOf = (value, asked) =>
  value === true || (typeof value === 'string' && /^yes$/i.test(value.trim()))
    ? good('Yes.')
    : bad(`“${asked.what}” must be yes.`)

const JUDGE_OF: Readonly<Record<JudgeName, JudgeOf>> = {
  'position indicator at neutral': positionJudge('The position indicator'),
  'neutral lamp steady': judgeLamp,
  'control readout at neutral': positionJudge('The control'),
  'volts across at neutral': judgeAcross,
  'resolution of the meter': judgeResolution,
  'source volts as expected': windowJudge('source volts as expected'),
  'load volts as expected': windowJudge('load volts as expected'),
  'current as expected': windowJudge('current as expected'),
  'torque of shear-head fasteners': (value, asked) => judgeTorque(value, unitOf(asked)),
  'must be yes': judgeYes,
}

/** A blank field says nothing. */
export function isGiven(value: ReadValue | undefined): value is ReadValue {
  return value !== undefined && (typeof value !== 'string' || value.trim() !== '')
}

export interface AskedVerdict extends Judged {
  readonly askId: string
  readonly judge: JudgeName
}

/** A verdict on every value that is given and has a rule. */
export function judgeValues(step: Step, values: Values, at: ReadAt): readonly AskedVerdict[] {
  return step.asks.flatMap((asked) => {
    const value = values[asked.id]
    if (!asked.judge || !isGiven(value)) return []
    const judged = JUDGE_OF[asked.judge](value, asked, at, step, values)
    return [{ askId: asked.id, judge: asked.judge, ...judged }]
  })
}

/** What the signs of a step say together of the tap. */
export function proofOf(step: Step, values: Values, at: ReadAt): NeutralProof {
  const verdicts = judgeValues(step, values, at)
  const isMeterGood = verdicts.some(
    ({ judge, verdict }) => judge === 'resolution of the meter' && verdict === 'good',
  )
  const counts = (judge: JudgeName) =>
    judge !== 'volts across at neutral' || (isMeterGood && showsTheTap(at))
  const signs = verdicts.flatMap(({ judge, verdict }): NeutralSign[] => {
    if (!SIGN_ORIGINS[judge]) return []
    if (verdict === 'bad') return [{ judge, says: 'off neutral' }]
    return counts(judge) ? [{ judge, says: 'neutral' }] : []
  })
  return neutralProof(signs)
}
