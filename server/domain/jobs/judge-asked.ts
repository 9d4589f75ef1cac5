import { judgeCarries, judgeRating, judgeShare } from './judge-current.ts'
import { judgeSerial } from './judge-serial.ts'
import {
  judgeAcross,
  judgeLamp,
  judgeResolution,
  positionJudge,
  showsTheTap,
} from './judge-signs.ts'
import { tapJudge } from './judge-tapping.ts'
import { windowJudge } from './judge-window.ts'
import { type NeutralProof, type NeutralSign, neutralProof, SIGN_ORIGINS } from './neutral-proof.ts'
import { isGiven, type JudgeOf, type ReadAt, type Values } from './read-at.ts'
import type { JudgeName, Step } from './step-sequence.ts'
import { judgeMarking, judgeTorque } from './torque.ts'
import { bad, good, type Judged } from './verdict.ts'

const judgeYes: JudgeOf = (value, asked) =>
  value === true || (typeof value === 'string' && /^yes$/i.test(value.trim()))
    ? good('Yes.')
    : bad((asked.kind === 'yes or no' && asked.ifNo) || `“${asked.what}” must be yes.`)

const JUDGE_OF: Readonly<Record<JudgeName, JudgeOf>> = {
  'position indicator at neutral': positionJudge('The position indicator'),
  'neutral lamp steady': judgeLamp,
  'control readout at neutral': positionJudge('The control'),
  'volts across at neutral': judgeAcross,
  'resolution of the meter': judgeResolution,
  'source volts as expected': windowJudge('source volts as expected'),
  'load volts as expected': windowJudge('load volts as expected'),
  'current as expected': windowJudge('current as expected'),
  'carries a share of the current': judgeShare,
  'carries the current': judgeCarries,
  'rating above the current': judgeRating,
  'volts rise with raises': tapJudge('raise'),
  'volts fall with lowers': tapJudge('lower'),
  'torque of shear-head fasteners': judgeTorque,
  'torque marked on the connector': judgeMarking,
  'serial number of one unit': judgeSerial,
  'must be yes': judgeYes,
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
