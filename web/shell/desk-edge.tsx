import { type KeyboardEvent, type PointerEvent, useRef } from 'react'
import { LEAST_DESK_PX, MOST_DESK_PX } from './use-desk-width.ts'

interface Props {
  readonly widthPx: number
  readonly onWidth: (widthPx: number) => void
}

const KEY_STEP_PX = 10

/** The edge of the desk: dragged, or moved with the arrow keys. */
export function DeskEdge({ widthPx, onWidth }: Props) {
  const start = useRef<{ x: number; widthPx: number } | null>(null)
  const onPointerDown = (event: PointerEvent<HTMLHRElement>) => {
    event.currentTarget.setPointerCapture(event.pointerId)
    start.current = { x: event.clientX, widthPx }
  }
  const onPointerMove = (event: PointerEvent) => {
    if (start.current) onWidth(start.current.widthPx + event.clientX - start.current.x)
  }
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === 'ArrowLeft') onWidth(widthPx - KEY_STEP_PX)
    if (event.key === 'ArrowRight') onWidth(widthPx + KEY_STEP_PX)
  }
  return (
    <hr
      className="shell-desk-edge"
      tabIndex={0}
      aria-label="Width of the desk"
      aria-orientation="vertical"
      aria-valuenow={widthPx}
      aria-valuemin={LEAST_DESK_PX}
      aria-valuemax={MOST_DESK_PX}
      onPointerDown={onPointerDown}
      onPointerMove={onPointerMove}
      onPointerUp={() => {
        start.current = null
      }}
      onKeyDown={onKeyDown}
    />
  )
}
