import { useState } from 'react'
import { Button } from '../ui/button.tsx'

interface Props {
  /** What it is: "invitation link". */
  readonly name: string
  readonly text: string
}

/** A secret that is on the screen now and never again, with a button to copy it. */
export function ShownOnce({ name, text }: Props) {
  const [outcome, setOutcome] = useState('')
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(text)
      setOutcome('Copied')
    } catch {
      setOutcome('Not allowed here: mark the text and copy it')
    }
  }
  return (
    <div className="stack">
      <code className="shown-once">{text}</code>
      <div className="row">
        <Button look="main" onClick={() => void copy()}>
          Copy the {name}
        </Button>
        <span role="status">{outcome}</span>
      </div>
    </div>
  )
}
