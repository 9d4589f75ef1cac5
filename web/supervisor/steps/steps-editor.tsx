import { type KeyboardEvent, useRef, useState } from 'react'
import { Button } from '../../ui/button.tsx'
import { addStep, changeStep, moveStep } from './edit-steps.ts'
import type { StepDraft } from './order-draft.ts'
import { StepFields } from './step-fields.tsx'

interface Props {
  readonly steps: readonly StepDraft[]
  readonly faults: ReadonlyMap<string, readonly string[]>
  readonly onChange: (steps: StepDraft[]) => void
}

/** The steps in their order; one stands open. Alt with an arrow key moves the one in focus. */
export function StepsEditor({ steps, faults, onChange }: Props) {
  const [openId, setOpenId] = useState<string | null>(null)
  const [gone, setGone] = useState<{ readonly step: StepDraft; readonly at: number } | null>(null)
  const [told, setTold] = useState('')
  const ref = useRef<HTMLOListElement>(null)
  const move = (id: string, by: 1 | -1) => {
    const next = moveStep(steps, id, by)
    onChange(next)
    setTold(`Now step ${next.findIndex((step) => step.id === id) + 1} of ${next.length}.`)
  }
  const add = (behindId: string | null) => {
    const next = addStep(steps, behindId)
    onChange(next.steps)
    setOpenId(next.added)
    setTold('Added an empty step.')
  }
  const remove = (step: StepDraft) => {
    const at = steps.indexOf(step)
    onChange(steps.filter((other) => other !== step))
    setGone({ step, at })
    setTold(`Removed step ${at + 1}.`)
    // The focus would be lost with the row.
    ref.current?.focus()
  }
  const putBack = () => {
    if (!gone) return
    onChange([...steps.slice(0, gone.at), gone.step, ...steps.slice(gone.at)])
    setTold(`Step ${gone.at + 1} is back.`)
    setGone(null)
  }
  return (
    <section className="job-part" aria-label="Steps">
      <h3>{steps.length} steps</h3>
      <p className="small soft" role="status">
        {told}
      </p>
      {gone && (
        <p>
          Removed: {gone.step.text || 'an empty step'}{' '}
          <Button onClick={putBack}>Put it back</Button>
        </p>
      )}
      <ol ref={ref} tabIndex={-1} className="list order-steps" aria-label="Steps in their order">
        {steps.map((step, index) => (
          <StepRow
            key={step.id}
            step={step}
            number={index + 1}
            isFirst={index === 0}
            isLast={index === steps.length - 1}
            isOpen={step.id === openId}
            faults={faults.get(step.id) ?? []}
            onToggle={() => setOpenId(step.id === openId ? null : step.id)}
            onMove={(by) => move(step.id, by)}
            onAdd={() => add(step.id)}
            onRemove={() => remove(step)}
            onType={(part) => onChange(changeStep(steps, step.id, part))}
          />
        ))}
      </ol>
      {steps.length === 0 && <Button onClick={() => add(null)}>Add a step</Button>}
    </section>
  )
}

interface RowProps {
  readonly step: StepDraft
  readonly number: number
  readonly isFirst: boolean
  readonly isLast: boolean
  readonly isOpen: boolean
  readonly faults: readonly string[]
  readonly onToggle: () => void
  readonly onMove: (by: 1 | -1) => void
  readonly onAdd: () => void
  readonly onRemove: () => void
  readonly onType: (part: Partial<StepDraft>) => void
}

function StepRow(props: RowProps) {
  const { step, number, isOpen, faults, onToggle, onMove } = props
  const onKeyDown = (event: KeyboardEvent) => {
    if (!event.altKey || (event.key !== 'ArrowUp' && event.key !== 'ArrowDown')) return
    event.preventDefault()
    onMove(event.key === 'ArrowUp' ? -1 : 1)
  }
  return (
    <li className="list-item" data-faulty={faults.length > 0}>
      <button
        type="button"
        className="list-row order-step"
        aria-expanded={isOpen}
        aria-label={`Step ${number}${step.isHoldPoint ? ', hold point' : ''}: ${step.text || 'empty'}`}
        aria-keyshortcuts="Alt+ArrowUp Alt+ArrowDown"
        onClick={onToggle}
        onKeyDown={onKeyDown}
      >
        <span>
          <strong>{number}.</strong>{' '}
          {step.isHoldPoint && <strong className="job-hold">Hold point. </strong>}
          {step.text || <span className="soft">empty</span>}
        </span>
      </button>
      {faults.length > 0 && (
        <ul className="order-faults" aria-label={`Faults of step ${number}`}>
          {faults.map((fault) => (
            <li key={fault}>{fault}</li>
          ))}
        </ul>
      )}
      {isOpen && <OpenStep {...props} />}
    </li>
  )
}

function OpenStep({ step, number, isFirst, isLast, onMove, onAdd, onRemove, onType }: RowProps) {
  return (
    <div className="stack order-step-open">
      <StepFields step={step} onType={onType} />
      <div className="row">
        <Button
          aria-label={`Move step ${number} up`}
          aria-disabled={isFirst}
          onClick={() => onMove(-1)}
        >
          Move up
        </Button>
        <Button
          aria-label={`Move step ${number} down`}
          aria-disabled={isLast}
          onClick={() => onMove(1)}
        >
          Move down
        </Button>
        <Button aria-label={`Add a step after step ${number}`} onClick={onAdd}>
          Add a step after it
        </Button>
        <Button look="danger" aria-label={`Remove step ${number}`} onClick={onRemove}>
          Remove
        </Button>
      </div>
    </div>
  )
}
