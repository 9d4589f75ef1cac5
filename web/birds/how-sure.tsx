import { useId, useState } from 'react'
import type { Sureness } from '../state/working.ts'

interface Props {
  readonly sureness: Sureness
  /** Where the figure is from; what a person would look up to check it. */
  readonly source?: string
}

/** Bars of trust, so that the mark can be told at a glance and without colour. */
const BARS: Readonly<Record<Sureness, number>> = {
  computed: 4,
  published: 4,
  'seen second hand': 3,
  'from memory': 2,
  'common practice, no source': 2,
  assumption: 1,
}

/** How sure a figure is, in words and by bars, with its source folded behind it. */
export function HowSure({ sureness, source }: Props) {
  const [isOpen, setIsOpen] = useState(false)
  const id = useId()
  if (!source) {
    return (
      <span className="how-sure">
        <Bars sureness={sureness} />
        {sureness}
      </span>
    )
  }
  return (
    <span>
      <button
        type="button"
        className="how-sure how-sure-more"
        aria-label={`How sure: ${sureness}. The source`}
        aria-expanded={isOpen}
        aria-controls={id}
        onClick={() => setIsOpen(!isOpen)}
      >
        <Bars sureness={sureness} />
        {sureness}
      </button>
      <span id={id} className="how-sure-source" hidden={!isOpen}>
        {' '}
        {source}
      </span>
    </span>
  )
}

function Bars({ sureness }: Pick<Props, 'sureness'>) {
  return (
    <svg viewBox="0 0 16 12" width="16" height="12" aria-hidden="true">
      {[0, 1, 2, 3].map((bar) => (
        <rect
          key={bar}
          className={bar < BARS[sureness] ? 'how-sure-on' : 'how-sure-off'}
          x={bar * 4 + 0.5}
          y={8 - bar * 2.5}
          width="3"
          height={3.5 + bar * 2.5}
        />
      ))}
    </svg>
  )
}
