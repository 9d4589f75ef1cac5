import { type KeyboardEvent, type PointerEvent, type ReactNode, useRef, useState } from 'react'
import { nearestSnap, type Snap, snapHeightPx, stepSnap } from './snap-heights.ts'
import './snap-sheet.css'

interface Props {
  readonly label: string
  /** Height of the room that the sheet rises in, pixels. */
  readonly roomPx: number
  readonly snap: Snap
  readonly onSnap: (snap: Snap) => void
  /** Stands above the scrolled part, as tabs do. */
  readonly head?: ReactNode
  readonly children: ReactNode
}

/** Bottom sheet of the phone, dragged or stepped with the arrow keys to one of three heights. */
export function SnapSheet({ label, roomPx, snap, onSnap, head, children }: Props) {
  const [dragPx, setDragPx] = useState<number | null>(null)
  const start = useRef<{ y: number; heightPx: number } | null>(null)
  const heightPx = dragPx ?? snapHeightPx(snap, roomPx)

  const onDown = (event: PointerEvent<HTMLButtonElement>) => {
    event.currentTarget.setPointerCapture(event.pointerId)
    start.current = { y: event.clientY, heightPx }
  }
  const onMove = (event: PointerEvent) => {
    if (!start.current) return
    const wanted = start.current.heightPx + start.current.y - event.clientY
    setDragPx(Math.max(80, Math.min(roomPx, wanted)))
  }
  const onUp = () => {
    if (dragPx !== null) onSnap(nearestSnap(dragPx, roomPx))
    start.current = null
    setDragPx(null)
  }
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key !== 'ArrowUp' && event.key !== 'ArrowDown') return
    event.preventDefault()
    onSnap(stepSnap(snap, event.key === 'ArrowUp' ? 1 : -1))
  }

  return (
    <section
      className="snap-sheet"
      aria-label={label}
      data-dragging={dragPx !== null}
      style={{ height: heightPx }}
    >
      <button
        type="button"
        className="snap-sheet-handle"
        aria-label={`Sheet height: ${snap}. Arrow up and down change it.`}
        onPointerDown={onDown}
        onPointerMove={onMove}
        onPointerUp={onUp}
        onPointerCancel={onUp}
        onKeyDown={onKeyDown}
      />
      {head}
      <div className="snap-sheet-body">{children}</div>
    </section>
  )
}
