import type { StepPlace } from '#domain/jobs/job-run.ts'
import { shortened } from './step-words.ts'

interface Props {
  readonly places: readonly StepPlace[]
  readonly shown: number
  readonly onShow: (index: number) => void
}

const SIGNS: Readonly<Record<StepPlace['status'], string>> = {
  done: '✓',
  'left out': '–',
  next: '▶',
  waiting: '○',
}

/** All steps of the pole with where each stands; any can be looked at. */
export function StepList({ places, shown, onShow }: Props) {
  return (
    <ol className="step-list" aria-label="All steps">
      {places.map(({ step, phase, status }, index) => (
        <li key={`${step.id}~${phase ?? ''}`}>
          <button
            type="button"
            className="step-row"
            data-status={status}
            aria-current={index === shown ? 'step' : undefined}
            onClick={() => onShow(index)}
          >
            <span className="step-row-sign" aria-hidden="true">
              {SIGNS[status]}
            </span>
            <span>
              {index + 1}. {phase && `${phase} phase: `}
              {shortened(step.text)}
              {step.isHoldPoint && <strong> Hold point.</strong>}
              <span className="visually-hidden"> {status}</span>
            </span>
          </button>
        </li>
      ))}
    </ol>
  )
}
