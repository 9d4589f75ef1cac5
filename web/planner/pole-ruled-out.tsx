import { useStudy } from '../api/studies.ts'
import { useSelection } from '../state/selection.ts'

/** What the open study says about the pole: how it did, or why it was ruled out. */
export function PoleRuledOut({ pole }: { readonly pole: string }) {
  const result = useStudy(useSelection().study).data?.result
  const excluded = result?.excluded.find((entry) => entry.pole === pole)
  const score = result?.candidates.find((entry) => entry.pole === pole)
  if (excluded) {
    return (
      <div>
        <h3>Ruled out for a bank</h3>
        <ul className="planner-bullets">
          {excluded.reasons.map((reason) => (
            <li key={reason}>{reason}</li>
          ))}
        </ul>
      </div>
    )
  }
  if (!score) return null
  return (
    <p>
      <strong>Tried for a bank:</strong> {score.customersOutside} customers would stay outside
      limits, lowest {score.lowestVolts120.toFixed(1)} V.
    </p>
  )
}
