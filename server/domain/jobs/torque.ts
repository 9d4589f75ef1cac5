import type { ReadValue } from './job-entry.ts'
import { type JudgeOf, unitOf, type Values } from './read-at.ts'
import type { Step } from './step-sequence.ts'
import { bad, doubtful, good, type Judged, readNumber } from './verdict.ts'

/**
 * Torque at which shear heads of line connectors part, lb-ft: common practice, no source. Connectors
 * differ widely, so the marking on the connector governs.
 */
export const SHEAR_HEAD_TORQUE_LB_FT = { low: 75, high: 85 }

/** One pound-force foot is 1.355 818 newton metres (NIST SP 811, appendix B.8; from memory). */
const NEWTON_METRES_PER_LB_FT = 1.355818

/** Either side of what the connector says, for reading a wrench: an assumption. */
const MARKING_TOLERANCE_PCT = 10

const GOVERNS = 'the marking on the connector governs'

/** In lb-ft, or in newton metres where the step says so. */
function lbFtOf(value: ReadValue | undefined, unit: string): number | null {
  const read = value === undefined ? null : readNumber(value)
  if (read === null || read <= 0) return null
  return /n ?[·.*-]? ?m/i.test(unit) ? read / NEWTON_METRES_PER_LB_FT : read
}

export const judgeMarking: JudgeOf = (value, asked) =>
  lbFtOf(value, unitOf(asked)) === null
    ? bad('Enter the torque that is marked on the connector, or leave it empty.')
    : good('The marking governs.')

/** Against the marking where it is entered, else against common practice. */
export const judgeTorque: JudgeOf = (value, asked, _at, step, values) => {
  const torque = lbFtOf(value, unitOf(asked))
  if (torque === null) return bad('Enter the torque at which the fasteners were set.')
  const marked = markedLbFt(step, values)
  return marked === null ? byPractice(torque, step) : byMarking(torque, marked)
}

function markedLbFt({ asks }: Step, values: Values): number | null {
  const marking = asks.find(({ judge }) => judge === 'torque marked on the connector')
  return marking ? lbFtOf(values[marking.id], unitOf(marking)) : null
}

function byMarking(torque: number, marked: number): Judged {
  if (Math.abs(torque - marked) <= (marked * MARKING_TOLERANCE_PCT) / 100) {
    return good(`Within ${MARKING_TOLERANCE_PCT} % of the ${marked.toFixed(0)} lb-ft marked.`)
  }
  const [isOff, what] =
    torque > marked
      ? ['above', 'Conductor or thread may be crushed: take the connector off and look.']
      : ['below', 'The joint may run hot: tighten it as marked.']
  return doubtful(
    `${torque.toFixed(0)} lb-ft is ${isOff} the ${marked.toFixed(0)} lb-ft marked on the connector, which govern.`,
    what,
    'Say in the remark what was done.',
  )
}

function byPractice(torque: number, { asks }: Step): Judged {
  const { low, high } = SHEAR_HEAD_TORQUE_LB_FT
  if (torque >= low && torque <= high) return good(`Within ${low} to ${high} lb-ft; ${GOVERNS}.`)
  const isAsked = asks.some(({ judge }) => judge === 'torque marked on the connector')
  return doubtful(
    `${torque.toFixed(0)} lb-ft lies outside the usual ${low} to ${high} lb-ft; ${GOVERNS}.`,
    'The usual range is common practice, no source.',
    isAsked
      ? 'It may be right: enter the marking.'
      : 'It may be right: write the marking on the connector into the remark.',
  )
}
