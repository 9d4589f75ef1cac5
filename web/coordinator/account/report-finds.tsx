import { followUpRule, followUpSteps } from '#domain/avian/account/follow-up.ts'
import { counted } from '../../state/format.ts'
import { localToday } from '../../state/today.ts'
import { findInWords, stepInWords } from '../finds/find-words.ts'
import type { BirdRecord } from '../use-bird-record.ts'

interface Props {
  readonly record: BirdRecord
  readonly year: number
}

/** Every find of the year with what followed. */
export function ReportFinds({ record: { feeder, settings }, year }: Props) {
  const today = localToday()
  const finds = feeder.incidents
    .filter(({ foundOn }) => foundOn.startsWith(String(year)))
    .toSorted((a, b) => a.foundOn.localeCompare(b.foundOn))
  return (
    <section className="account-section" aria-label={`Finds of ${year}`}>
      <h3>
        {counted(finds.length, 'find')} of {year}, one by one
      </h3>
      {finds.length === 0 && <p>None is recorded. That is no proof that none died.</p>}
      <ol className="report-finds">
        {finds.map((find) => {
          const { days } = followUpRule(find.species, settings)
          const steps = followUpSteps(find, days, today)
          return (
            <li key={find.id}>
              <strong>{find.foundOn}</strong>: {findInWords(find)}. {find.note}{' '}
              <span className="soft">{steps.map(stepInWords).join('; ')}.</span>
            </li>
          )
        })}
      </ol>
    </section>
  )
}
