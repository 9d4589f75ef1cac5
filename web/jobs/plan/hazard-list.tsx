import type { Hazard } from '#domain/jobs/job-plan.ts'
import { HowSure } from '../../birds/how-sure.tsx'
import { howSureOf } from '../how-sure-of.ts'

const ABOUT: Readonly<Record<Hazard['about'], string>> = {
  approach: 'Approach',
  backfeed: 'Backfeed',
  access: 'Access',
  nest: 'Nest',
  weight: 'Weight',
  bypass: 'Bypass',
  other: 'Also',
}

/** What can hurt, with how sure each line is. */
export function HazardList({ hazards }: { readonly hazards: readonly Hazard[] }) {
  if (hazards.length === 0) {
    return <p className="soft">None was found from the record. Look before the work begins.</p>
  }
  return (
    <ul className="job-hazards">
      {hazards.map(({ about, what, pole, source }) => (
        <li key={`${about} ${what} ${pole ?? ''}`}>
          <strong>
            {ABOUT[about]}
            {pole !== undefined && `, pole ${pole}`}:
          </strong>{' '}
          {what} <HowSure sureness={howSureOf(source)} source={source} />
        </li>
      ))}
    </ul>
  )
}
