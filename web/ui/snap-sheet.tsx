import { type KeyboardEvent, type PointerEvent, type ReactNode, useRef, useState } from 'react'
import { nearestSnap, type Snap, snapHeightPx, stepSnap } from './snap-heights.ts'
import './snap-sheet.css'

/** A finger that means to tap moves less. */
const TAP_MOVES_PX = 6

const AFTER_TAP: Readonly<Record<Snap, Snap>> = { low: 'half', half: 'full', full: 'half' }

interface Props {
  readonly label: string
  /** Height of the room that the sheet rises in, pixels. */
  readonly roomPx: number
  readonly snap: Snap
  /** Takes the whole room, also what is else left free at full height. */
  readonly isWhole?: boolean
  readonly onSnap: (snap: Snap) => void
  /** Stands above the scrolled part, as tabs do. */
  readonly head?: ReactNode
  readonly children: ReactNode
}

/** Bottom sheet of the phone, dragged, tapped or stepped with the arrow keys to one of three heights. */
export function SnapSheet({ label, roomPx, snap, isWhole = false, onSnap, head, children }: Props) {
  const [dragPx, setDragPx] = useState<number | null>(null)
  const start = useRef<{ y: number; heightPx: number } | null>(null)
  const wasDragged = useRef(false)
  const heightPx = dragPx ?? (isWhole ? roomPx : snapHeightPx(snap, roomPx))

  const onDown = (event: PointerEvent<HTMLButtonElement>) => {
    event.currentTarget.setPointerCapture(event.pointerId)
    start.current = { y: event.clientY, heightPx }
    wasDragged.current = false
  }
  const onMove = (event: PointerEvent) => {
    if (!start.current) return
    const movedPx = start.current.y - event.clientY
    if (Math.abs(movedPx) < TAP_MOVES_PX && !wasDragged.current) return
    wasDragged.current = true
    const wanted = start.current.heightPx + movedPx
    setDragPx(Math.max(80, Math.min(roomPx, wanted)))
  }
  const onUp = () => {
    if (dragPx !== null) onSnap(nearestSnap(dragPx, roomPx))
    start.current = null
    setDragPx(null)
  }
  // For whoever can neither drag nor press arrow keys, as with a screen reader on a phone.
  const onTap = () => {
    if (!wasDragged.current) onSnap(AFTER_TAP[snap])
    wasDragged.current = false
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
      data-whole={isWhole}
      style={{ height: heightPx }}
    >
      <button
        type="button"
        className="snap-sheet-handle"
        aria-label={`Sheet height: ${isWhole ? 'whole window' : snap}. Arrow up and down change it.`}
        onPointerDown={onDown}
        onPointerMove={onMove}
        onPointerUp={onUp}
        onPointerCancel={onUp}
        onClick={onTap}
        onKeyDown={onKeyDown}
      />
      {head}
      <div className="snap-sheet-body">{children}</div>
    </section>
  )
}
