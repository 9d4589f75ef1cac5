import { useFindings } from '../api/feeders.ts'
import { useFeeder } from '../state/feeder.tsx'
import { findingsAtPole } from './findings-at-pole.ts'

/** Findings about the pole, its equipment and its spans. */
export function PoleFindings({ pole }: { readonly pole: string }) {
  const model = useFeeder()
  const findings = useFindings(model.feeder.header.id).data?.findings ?? []
  const own = findingsAtPole(model, findings, pole)
  if (own.length === 0) return null
  return (
    <div>
      <h3>Findings</h3>
      <ul className="planner-bullets">
        {own.map(({ code, what, remedy }) => (
          <li key={`${code} ${what}`}>
            {what} {remedy}
          </li>
        ))}
      </ul>
    </div>
  )
}
