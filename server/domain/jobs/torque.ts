import type { ReadValue } from './job-entry.ts'
import { bad, doubtful, good, type Judged, readNumber } from './verdict.ts'

/**
 * Torque at which shear heads of line connectors part, lb-ft: common practice, no source. Connectors
 * differ widely, so the marking on the connector governs.
 */
export const SHEAR_HEAD_TORQUE_LB_FT = { low: 75, high: 85 }

/** One pound-force foot is 1.355 818 newton metres (NIST SP 811, appendix B.8; from memory). */
const NEWTON_METRES_PER_LB_FT = 1.355818

const MARKING = 'the marking on the connector governs'

/** In lb-ft, or in newton metres where the step says so. */
export function judgeTorque(value: ReadValue, unit: string): Judged {
  const read = readNumber(value)
  if (read === null || read <= 0) return bad('Enter the torque at which the fasteners were set.')
  const torque = /n ?[·.*-]? ?m/i.test(unit) ? read / NEWTON_METRES_PER_LB_FT : read
  const { low, high } = SHEAR_HEAD_TORQUE_LB_FT
  if (torque >= low && torque <= high) return good(`Within ${low} to ${high} lb-ft; ${MARKING}.`)
  return doubtful(
    `${torque.toFixed(0)} lb-ft lies outside the usual ${low} to ${high} lb-ft; ${MARKING}.`,
    'The usual range is common practice, no source.',
    'It may be right: write the marking on the connector into the remark.',
  )
}
