import type { Asked, Step } from '#domain/jobs/step-sequence.ts'
import type { Phase } from '#domain/units/phases.ts'
import { signatureLines } from './signature-lines.ts'

interface Props {
  readonly steps: readonly Step[]
  /** Units at the pole; a step for each unit has a place for each. */
  readonly phases: readonly Phase[]
}

/** Steps in their order, with boxes for readings and lines for signatures. */
export function StepsTable({ steps, phases }: Props) {
  return (
    <table className="paper-steps-table">
      <thead>
        <tr>
          <th scope="col">No.</th>
          <th scope="col">Step</th>
          <th scope="col">Readings and signature</th>
        </tr>
      </thead>
      <tbody>
        {steps.map((step, index) => (
          <StepRow key={step.id} step={step} number={index + 1} phases={phases} />
        ))}
      </tbody>
    </table>
  )
}

interface RowProps {
  readonly step: Step
  readonly number: number
  readonly phases: readonly Phase[]
}

function StepRow({ step, number, phases }: RowProps) {
  const { text, hazard, isHoldPoint, asks, each, mayBeLeftOut } = step
  return (
    <tr className={isHoldPoint ? 'paper-step paper-step-hold' : 'paper-step'}>
      <td className="paper-step-number">{number}</td>
      <td>
        {isHoldPoint && <strong className="paper-hold">Hold point. </strong>}
        {text}
        {each === 'unit' && ' For each unit.'}
        {mayBeLeftOut && ' May be left out, with a reason.'}
        {hazard && <span className="paper-hazard">{hazard}</span>}
      </td>
      <td>
        {asks.map((asked) => (
          <AskedBoxes key={asked.id} asked={asked} phases={each === 'unit' ? phases : []} />
        ))}
        <span className="paper-signatures">
          {signatureLines(step, phases).map((words) => (
            <span key={words}>{words}</span>
          ))}
        </span>
      </td>
    </tr>
  )
}

interface AskedProps {
  readonly asked: Asked
  readonly phases: readonly Phase[]
}

/** One reading: a box for it, or for each unit one; of a yes the boxes come first. */
function AskedBoxes({ asked, phases }: AskedProps) {
  const { what, isNeeded, kind } = asked
  const words = (
    <span className="paper-words">
      {what}
      {!isNeeded && ' (if there)'}
    </span>
  )
  return (
    <span className="paper-asked">
      {kind !== 'yes or no' && words}
      <span className="paper-units">
        {phases.length === 0 ? (
          <Box asked={asked} />
        ) : (
          phases.map((phase) => (
            <span key={phase} className="paper-unit">
              <strong>{phase}</strong> <Box asked={asked} />
            </span>
          ))
        )}
      </span>
      {kind === 'yes or no' && words}
    </span>
  )
}

function Box({ asked }: { readonly asked: Asked }) {
  switch (asked.kind) {
    case 'yes or no':
      return <span className="paper-tick" />
    case 'choice':
      return asked.options.map((option) => (
        <span key={option} className="paper-option">
          <span className="paper-tick" /> {option}
        </span>
      ))
    case 'number':
      return (
        <>
          <span className="paper-blank" /> {asked.unit}
        </>
      )
    case 'text':
      return <span className="paper-blank paper-blank-wide" />
  }
}
