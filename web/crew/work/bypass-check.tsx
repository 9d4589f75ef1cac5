import type { ReadValue } from '#domain/jobs/job-entry.ts'
import type { BankWork } from '#domain/jobs/job-plan.ts'
import type { Verdict } from '#domain/jobs/judge-reading.ts'
import type { Step } from '#domain/jobs/step-sequence.ts'
import { Field } from '../../ui/field.tsx'
import { loopOhms } from './loop-ohm.ts'
import { numberOfText } from './number-of-text.ts'
import {
  acrossBypassInWords,
  type SignsSay,
  signsSay,
  stepsOffNeutral,
} from './steps-off-neutral.ts'

interface Props {
  readonly jobId: string
  readonly bank: BankWork
  readonly step: Step
  readonly values: Readonly<Record<string, ReadValue>>
  readonly verdicts: readonly Verdict[]
}

/**
 * What would stand across a bypass, and flow in it, by what was read: of position and volts that
 * which is further from neutral. Whether neutral is proven the verdicts of the step say.
 */
export function BypassCheck({ jobId, bank, step, values, verdicts }: Props) {
  const typedOhm = loopOhms.use(jobId) ?? String(bank.loopOhm)
  const loopOhm = numberOfText(typedOhm)
  const isUsable = loopOhm !== null && loopOhm > 0
  const say = signsSay(step, verdicts)
  return (
    <section className="bypass-check stack" aria-label="Across a bypass">
      <h3>If the bypass were closed now</h3>
      {say === 'nothing' && <p>Enter what is read; then it stands here.</p>}
      {say === 'neutral' && (
        <p>
          All that was read says neutral, where nothing stands across it. Whether that proves it,
          the signs above say.
        </p>
      )}
      {(say === 'off neutral' || say === 'not the same') && (
        <BypassStop
          say={say}
          steps={stepsOffNeutral(step, values, bank.neutralV)}
          loopOhm={isUsable ? loopOhm : null}
          neutralV={bank.neutralV}
        />
      )}
      <Field
        label="Impedance of the loop that a bypass closes"
        unit="Ω"
        hint={`Planned with ${bank.loopOhm} Ω; the utility sets it. For this display only.`}
        fault={isUsable ? null : 'Type ohms above zero, as 0.1.'}
      >
        {(control) => (
          <input
            {...control}
            className="input work-input"
            inputMode="decimal"
            value={typedOhm}
            onChange={({ target }) => loopOhms.keep(jobId, target.value)}
          />
        )}
      </Field>
    </section>
  )
}

interface StopProps {
  readonly say: SignsSay
  readonly steps: number | null
  readonly loopOhm: number | null
  readonly neutralV: number
}

function BypassStop({ say, steps, loopOhm, neutralV }: StopProps) {
  return (
    <p className="verdict" data-verdict="bad" role="alert">
      <span className="verdict-sign" aria-hidden="true">
        ✕
      </span>
      <span>
        <strong>Do not close it.</strong>{' '}
        {steps !== null && steps > 0 && acrossBypassInWords(steps, neutralV, loopOhm)}{' '}
        {say === 'not the same' && 'The signs do not say the same: find which is wrong.'}
      </span>
    </p>
  )
}
