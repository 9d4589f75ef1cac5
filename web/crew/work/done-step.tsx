import type { StepPlace } from '#domain/jobs/job-run.ts'
import { Moment } from '../../record/moment.tsx'
import { listed } from '../../state/format.ts'
import type { FieldEntry } from './fold-field-job.ts'
import { StandingMark } from './standing-mark.tsx'
import { valueInWords } from './step-words.ts'

interface Props {
  readonly place: StepPlace
  readonly entries: readonly FieldEntry[]
}

/** An earlier step, as it was entered; it is not changed any more. */
export function DoneStep({ place, entries }: Props) {
  const { step, entry } = place
  if (!entry || (entry.kind !== 'step done' && entry.kind !== 'step left out')) return null
  const field = entries.find((other) => other.entry.id === entry.id)
  const values = entry.kind === 'step done' ? entry.values : {}
  return (
    <div className="stack">
      <p>
        <strong>{entry.kind === 'step done' ? 'Done' : 'Left out'}</strong>,{' '}
        <Moment at={entry.at} />, signed by {listed(entry.signedBy)}.{' '}
        {field && <StandingMark standing={field.standing} />}
      </p>
      {entry.kind === 'step left out' && <p>Why: {entry.why}</p>}
      <dl className="work-readings">
        {step.asks.map((asked) => {
          const value = values[asked.id]
          return (
            value !== undefined && (
              <div key={asked.id}>
                <dt>{asked.what}</dt>
                <dd>{valueInWords(asked, value)}</dd>
              </div>
            )
          )
        })}
      </dl>
      {entry.kind === 'step done' && entry.remark && <p>Remark: {entry.remark}</p>}
      <p className="small">
        What was entered stands. If it was wrong, say so below under “Say what was different”.
      </p>
    </div>
  )
}
