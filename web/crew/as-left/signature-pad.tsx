import { type PointerEvent, useRef } from 'react'
import { Button } from '../../ui/button.tsx'
import { beginStroke, leadStroke, type Point, SIGNATURE_BOX } from './signature-path.ts'

interface Props {
  readonly path: string
  readonly onDraw: (path: string) => void
}

/** A box to sign in by finger, pen or mouse. Whoever cannot draw signs by the typed name alone. */
export function SignaturePad({ path, onDraw }: Props) {
  // Moves may come faster than the page is drawn, so the stroke under way is kept here.
  const drawn = useRef(path)
  const isDrawing = useRef(false)
  const draw = (next: string) => {
    drawn.current = next
    onDraw(next)
  }
  return (
    <div className="stack">
      <svg
        className="signature"
        viewBox={`0 0 ${SIGNATURE_BOX.width} ${SIGNATURE_BOX.height}`}
        role="img"
        aria-label={path ? 'Drawn signature' : 'Box to draw a signature in, empty'}
        onPointerDown={(event) => {
          event.currentTarget.setPointerCapture(event.pointerId)
          isDrawing.current = true
          draw(beginStroke(path, pointOf(event)))
        }}
        onPointerMove={(event) => {
          if (isDrawing.current) draw(leadStroke(drawn.current, pointOf(event)))
        }}
        onPointerUp={() => {
          isDrawing.current = false
        }}
        onPointerCancel={() => {
          isDrawing.current = false
        }}
      >
        <path className="signature-line" d="M20 80 H280" />
        {path && <path className="signature-ink" d={path} />}
      </svg>
      <div className="work-pair">
        <Button disabled={path === ''} onClick={() => draw('')}>
          Clear the signature
        </Button>
      </div>
    </div>
  )
}

function pointOf(event: PointerEvent<SVGSVGElement>): Point {
  const room = event.currentTarget.getBoundingClientRect()
  return {
    x: ((event.clientX - room.left) / room.width) * SIGNATURE_BOX.width,
    y: ((event.clientY - room.top) / room.height) * SIGNATURE_BOX.height,
  }
}
