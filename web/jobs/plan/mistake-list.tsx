import type { MistakeSign } from '#domain/jobs/job-plan.ts'
import { capitalised } from '../job-words.ts'

/** What would be read if something had been done wrong. */
export function MistakeList({ mistakes }: { readonly mistakes: readonly MistakeSign[] }) {
  return (
    <ul className="job-mistakes">
      {mistakes.map(({ mistake, phase, signs }) => (
        <li key={`${mistake} ${phase ?? ''}`}>
          <strong>
            {capitalised(mistake)}
            {phase !== undefined && `, phase ${phase}`}
          </strong>
          <ul className="job-lines">
            {signs.map((sign) => (
              <li key={sign}>{sign}</li>
            ))}
          </ul>
        </li>
      ))}
    </ul>
  )
}
