import type { Phase } from '#domain/units/phases.ts'
import type { ReadValue } from './job-entry.ts'
import type { JobRun } from './job-run.ts'
import { judgeValues, proofOf } from './judge-asked.ts'
import type { NeutralProof } from './neutral-proof.ts'
import { readAt } from './pole-run.ts'
import type { Step } from './step-sequence.ts'
import type { Judged } from './verdict.ts'

/** What one reading of a step is worth, and why. */
export interface Verdict extends Judged {
  readonly askId: string
}

type Values = Readonly<Record<string, ReadValue>>

/** A verdict on every value that is given and has a rule; empty for a pole outside the job. */
export function judgeStep(
  run: JobRun,
  poleId: string,
  step: Step,
  phase: Phase | undefined,
  values: Values,
): readonly Verdict[] {
  const pole = run.poles.get(poleId)
  if (!pole) return []
  return judgeValues(step, values, readAt(run.plan, pole, phase)).map(
    ({ askId, verdict, words }) => ({ askId, verdict, words }),
  )
}

/** What the readings of a step that proves neutral say together; null for every other step. */
export function judgeNeutral(
  run: JobRun,
  poleId: string,
  step: Step,
  phase: Phase | undefined,
  values: Values,
): NeutralProof | null {
  const pole = run.poles.get(poleId)
  if (!pole || step.action !== 'prove neutral') return null
  return proofOf(step, values, readAt(run.plan, pole, phase))
}
