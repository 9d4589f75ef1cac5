import type { AskedVerdict } from './judge-asked.ts'
import { SIGN_ORIGINS } from './neutral-proof.ts'
import type { Step } from './step-sequence.ts'

/**
 * Whether no remark helps: what is bad at a hold point; a sign that the unit is off neutral, at every
 * step that looks for neutral; and what went wrong at a switch or a drive, which is not recorded as
 * done.
 */
export function stopsStep(
  { action, isHoldPoint }: Pick<Step, 'action' | 'isHoldPoint'>,
  { judge, verdict }: Pick<AskedVerdict, 'judge' | 'verdict'>,
): boolean {
  if (verdict !== 'bad') return false
  return isHoldPoint || action !== undefined || SIGN_ORIGINS[judge] !== undefined
}
