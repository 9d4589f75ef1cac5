import type { Part } from '#domain/avian/pole-top/part.ts'
import { Button } from '../ui/button.tsx'

interface Props {
  readonly parts: readonly Part[]
  readonly onLit: (partId: string | null) => void
  readonly onPutBird: (partId: string) => void
}

/** Every part in words, for whoever does not see the drawing or wants to know what a line is. */
export function PartList({ parts, onLit, onPutBird }: Props) {
  return (
    <details>
      <summary>All {parts.length} parts</summary>
      <ul className="part-rows">
        {parts.map((part) => (
          <li
            key={part.id}
            className="part-row"
            onPointerEnter={() => onLit(part.id)}
            onPointerLeave={() => onLit(null)}
            onFocus={() => onLit(part.id)}
            onBlur={() => onLit(null)}
          >
            <span>
              {part.label}
              <span className="soft">: {potentialInWords(part)}</span>
            </span>
            {part.canPerch && (
              <Button
                aria-label={`Put the bird on the ${part.label}`}
                onClick={() => onPutBird(part.id)}
              >
                Bird here
              </Button>
            )}
          </li>
        ))}
      </ul>
    </details>
  )
}

/** "energized, A phase, covered". */
export function potentialInWords({ potential, surface }: Part): string {
  const cover = surface === 'covered' ? ', covered' : ''
  if (potential === 'none') return `conducts nothing${cover}`
  if (potential === 'grounded') return `grounded${cover}`
  return `energized, ${potential} phase${cover}`
}
