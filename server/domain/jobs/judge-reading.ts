import type { Phase } from '#domain/units/phases.ts'
import type { ReadValue } from './job-entry.ts'
import type { JobRun } from './job-run.ts'
import { judgeValues, proofOf } from './judge-asked.ts'
import { SIGN_ORIGINS } from './neutral-proof.ts'
import { readAt } from './pole-run.ts'
import type { Step } from './step-sequence.ts'
import { stopsStep } from './stops-step.ts'
import type { Judged } from './verdict.ts'

/** What one reading of a step is worth, and why. */
export interface Verdict extends Judged {
  readonly askId: string
  /** The step does not pass with it, whatever is remarked. */
  readonly isStop: boolean
}

/**
 * A verdict on every value that is given and has a rule; empty for a pole outside the job. Where
 * neutral is to be proven, the last sign also says what all of them prove together.
 */
export function judgeStep(
  run: JobRun,
  poleId: string,
  step: Step,
  phase: Phase | undefined,
  values: Readonly<Record<string, ReadValue>>,
): readonly Verdict[] {
  const pole = run.poles.get(poleId)
  if (!pole) return []
  const at = readAt(run.plan, pole, phase)
  const judged = judgeValues(step, values, at)
  const lastSign = judged.findLastIndex(({ judge }) => SIGN_ORIGINS[judge] !== undefined)
  const together = step.action === 'prove neutral' ? proofOf(step, values, at).words : ''
  return judged.map(({ judge, ...rest }, index) => ({
    ...rest,
    words: index === lastSign ? `${rest.words} ${together}`.trim() : rest.words,
    isStop: stopsStep(step, { judge, verdict: rest.verdict }),
  }))
}
