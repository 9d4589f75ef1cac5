import { Moment } from '../../record/moment.tsx'
import { Who } from '../../record/who.tsx'
import { listed } from '../../state/format.ts'
import type { ToldEntry } from './told-entries.ts'
import { valueInWords } from './value-words.ts'
import { VerdictMark } from './verdict-mark.tsx'

interface Props {
  readonly label: string
  readonly entries: readonly ToldEntry[]
}

/** What was done in the field, in its order, with readings and what they were worth. */
export function EntryList({ label, entries }: Props) {
  return (
    <ol className="list" aria-label={label}>
      {entries.map((told) => (
        <li key={told.kept.entry.id} className="list-item list-row">
          <EntryHead told={told} />
          <Readings told={told} />
          <EntryFoot told={told} />
        </li>
      ))}
    </ol>
  )
}

function EntryHead({ told: { kept, step } }: { readonly told: ToldEntry }) {
  const { entry } = kept
  const unit = 'phase' in entry && entry.phase !== undefined ? `, unit ${entry.phase}` : ''
  const place = <span className="soft">{`Pole ${entry.pole}${unit}`}</span>
  switch (entry.kind) {
    case 'step done':
      return (
        <>
          {place}
          <span>{step?.text ?? `Step ${entry.stepId}, which the plan does not hold`}</span>
        </>
      )
    case 'step left out':
      return (
        <>
          {place}
          <span>
            <strong>Left out:</strong> {step?.text ?? entry.stepId}
          </span>
          <span>Because: {entry.why}</span>
        </>
      )
    case 'remark':
    case 'deviation':
      return (
        <>
          {place}
          <span>
            <strong>{entry.kind === 'deviation' ? 'Done otherwise:' : 'Remark:'}</strong>{' '}
            {entry.text}
          </span>
        </>
      )
    case 'photo':
      return (
        <>
          {place}
          <span>
            <strong>Photo:</strong> {entry.what || 'without words'}
            {entry.offPoleM !== undefined && `, taken ${entry.offPoleM.toFixed(0)} m from the pole`}
          </span>
        </>
      )
  }
}

function Readings({ told: { kept, step, verdicts } }: { readonly told: ToldEntry }) {
  const { entry } = kept
  if (entry.kind !== 'step done' || !step || step.asks.length === 0) return null
  return (
    <ul className="job-lines">
      {step.asks.map((asked) => {
        const verdict = verdicts.find(({ askId }) => askId === asked.id)
        return (
          <li key={asked.id}>
            {asked.what}: <strong>{valueInWords(asked, entry.values[asked.id])}</strong>
            {verdict && <VerdictMark verdict={verdict} />}
          </li>
        )
      })}
    </ul>
  )
}

function EntryFoot({ told: { kept } }: { readonly told: ToldEntry }) {
  const { entry, by } = kept
  const signed = 'signedBy' in entry ? `signed by ${listed(entry.signedBy)}; ` : ''
  const remark = entry.kind === 'step done' ? entry.remark : undefined
  return (
    <>
      {remark && <span>Remark: {remark}</span>}
      <span className="soft small">
        {signed}
        <Who {...by} />, <Moment at={entry.at} /> on the device
      </span>
    </>
  )
}
