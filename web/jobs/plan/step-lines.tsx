import type { Step } from '#domain/jobs/step-sequence.ts'
import '../jobs.css'

/** Steps as they are read, not as they are done. */
export function StepLines({ steps }: { readonly steps: readonly Step[] }) {
  return (
    <ol className="job-steps">
      {steps.map(({ id, text, hazard, isHoldPoint, each, onlyWith }) => (
        <li key={id}>
          {isHoldPoint && <strong className="job-hold">Hold point. </strong>}
          {text}
          {each === 'unit' && <span className="soft"> For each unit.</span>}
          {onlyWith && <span className="soft"> Only at banks with {onlyWith}.</span>}
          {hazard && <span className="job-line-note job-step-hazard">{hazard}</span>}
        </li>
      ))}
    </ol>
  )
}
