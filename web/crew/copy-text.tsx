import { useState } from 'react'
import { Button } from '../ui/button.tsx'

interface Props {
  /** What it is: "UTM". */
  readonly name: string
  readonly text: string
}

/** A line that a tap copies; says whether it did. */
export function CopyText({ name, text }: Props) {
  const [outcome, setOutcome] = useState('')
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(text)
      setOutcome('Copied')
    } catch {
      setOutcome('Not allowed here: press and hold the figures to copy them')
    }
  }
  return (
    <li className="copy-text">
      <span className="copy-text-name">{name}</span>
      <span className="copy-text-value">{text}</span>
      <Button aria-label={`Copy ${name}`} onClick={() => void copy()}>
        Copy
      </Button>
      <span className="copy-text-outcome" role="status">
        {outcome}
      </span>
    </li>
  )
}
