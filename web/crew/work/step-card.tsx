import type { ReactNode } from 'react'
import type { StepPlace } from '#domain/jobs/job-run.ts'
import { ArrivingTitle } from '../../ui/arriving-title.tsx'
import { keyOfPlace } from './key-of-place.ts'
import { placeInWords } from './step-words.ts'

interface Props {
  readonly place: StepPlace
  readonly index: number
  readonly all: number
  readonly children: ReactNode
}

/** One step, big: where in the order it stands, whether it holds, what is done and what can hurt. */
export function StepCard({ place, index, all, children }: Props) {
  const { step, phase, status } = place
  return (
    <section className="step stack" aria-label="Step" data-hold={step.isHoldPoint}>
      <ArrivingTitle of={keyOfPlace(place)} className="step-place">
        {placeInWords(index, all, phase)}
      </ArrivingTitle>
      <progress className="step-progress" max={all} value={index} aria-label="Steps gone through" />
      {step.isHoldPoint && (
        <p className="hold">
          <span className="hold-sign" aria-hidden="true">
            ■
          </span>
          <span>
            <strong>Hold point.</strong>{' '}
            {status === 'done'
              ? 'It was passed with its readings.'
              : 'Stop here until this is answered.'}
          </span>
        </p>
      )}
      <p className="step-text">{step.text}</p>
      {step.hazard && (
        <p className="step-hazard">
          <strong>Hazard:</strong> {step.hazard}
        </p>
      )}
      {children}
    </section>
  )
}
