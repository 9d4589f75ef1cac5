import type { JudgeOf } from './read-at.ts'
import { bad, doubtful, good } from './verdict.ts'

const plain = (serial: string) => serial.replace(/\s+/g, '').toLowerCase()

/** No two units have one number: neither two of a bank, nor the old one and the new one. */
export const judgeSerial: JudgeOf = (value, _asked, { phases, serials }, step) => {
  if (typeof value !== 'string')
    return bad('Enter the serial number as it stands on the nameplate.')
  const same = serials.find(({ stepId, phase, serial }) => {
    const isItself = stepId === step.id && (phase === undefined || phases.includes(phase))
    return !isItself && plain(serial) === plain(value)
  })
  if (!same) return good('Read of no other unit here.')
  const unit = same.phase ? ` at unit ${same.phase}` : ''
  return doubtful(
    same.stepId === step.id
      ? `The same serial number was read${unit}.`
      : `The same serial number was read${unit} at another step, of another unit.`,
    'Read both nameplates again, and say in the remark what they say.',
  )
}
