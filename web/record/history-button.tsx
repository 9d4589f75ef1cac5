import { type ReactNode, useState } from 'react'
import type { Thing } from '../api/history.ts'
import { Button } from '../ui/button.tsx'
import type { StepText } from './field-entry-in-words.ts'
import { Timeline } from './timeline.tsx'

interface Props {
  readonly thing: Thing
  /** As people know it: "the proposal East bank". */
  readonly name: string
  /** Other steps that stand in the same row, before it. */
  readonly beside?: ReactNode
  readonly stepText?: StepText
}

/** Folds the history of a thing out below it. */
export function HistoryButton({ thing, name, beside, stepText }: Props) {
  const [isOpen, setIsOpen] = useState(false)
  return (
    <>
      <div className="row">
        {beside}
        <Button
          aria-expanded={isOpen}
          aria-label={`History of ${name}`}
          onClick={() => setIsOpen(!isOpen)}
        >
          {isOpen ? 'Close the history' : 'History'}
        </Button>
      </div>
      {isOpen && <Timeline thing={thing} name={name} {...(stepText && { stepText })} />}
    </>
  )
}
