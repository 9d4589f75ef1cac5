import { bypassOffNeutral } from '#domain/jobs/bypass-current.ts'
import type { ReadValue } from '#domain/jobs/job-entry.ts'
import type { BankWork } from '#domain/jobs/job-plan.ts'
import type { Step } from '#domain/jobs/step-sequence.ts'
import { counted, tapWords, thousands } from '../../state/format.ts'
import { Field } from '../../ui/field.tsx'
import { furthestTap } from './furthest-tap.ts'
import { loopOhms } from './loop-ohm.ts'
import { numberOfText } from './number-of-text.ts'

interface Props {
  readonly jobId: string
  readonly bank: BankWork
  readonly step: Step
  readonly values: Readonly<Record<string, ReadValue>>
}

/**
 * What would stand across a bypass, and flow in it, at the tap that was read. Off neutral it says
 * that the bypass is not closed; the step itself is refused by its judged readings.
 */
export function BypassCheck({ jobId, bank, step, values }: Props) {
  const typedOhm = loopOhms.use(jobId) ?? String(bank.loopOhm)
  const loopOhm = numberOfText(typedOhm)
  const isUsable = loopOhm !== null && loopOhm > 0
  const tap = furthestTap(step, values)
  return (
    <section className="bypass-check stack" aria-label="Across a bypass">
      <h3>If the bypass were closed now</h3>
      {tap === null && <p>Type the position that is read; then it stands here.</p>}
      {tap !== null && isUsable && (
        <BypassWords tap={tap} loopOhm={loopOhm} neutralV={bank.neutralV} />
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

interface WordsProps {
  readonly tap: number
  readonly loopOhm: number
  readonly neutralV: number
}

function BypassWords({ tap, loopOhm, neutralV }: WordsProps) {
  if (tap === 0) {
    return <p>At neutral nothing stands across it. Neutral has still to be proven by its signs.</p>
  }
  const { volts, amps } = bypassOffNeutral(neutralV, tap, loopOhm)
  return (
    <p className="verdict" data-verdict="bad" role="alert">
      <span className="verdict-sign" aria-hidden="true">
        ✕
      </span>
      <span>
        <strong>Do not close it.</strong> At {tapWords(tap)}, {counted(Math.abs(tap), 'step')} off
        neutral, {thousands(volts)} V would stand across it; {loopOhm} Ω would let about{' '}
        {thousands(amps)} A flow. Run the unit to neutral and read again.
      </span>
    </p>
  )
}
