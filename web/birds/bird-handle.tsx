import { type KeyboardEvent, type PointerEvent, useRef } from 'react'
import type { Part } from '#domain/avian/pole-top/part.ts'
import type { BirdSize } from '#domain/avian/species/bird-species.ts'
import { type BirdPlace, feetAtSpot, moved, onNearestPerch, STEP_M } from './bird-place.ts'
import { type Frame, type Spot, spotOf } from './view-frame.ts'

interface Props {
  readonly frame: Frame
  readonly parts: readonly Part[]
  readonly size: BirdSize
  readonly place: BirdPlace
  /** "red-tailed hawk on the arm". */
  readonly name: string
  readonly onPut: (place: BirdPlace) => void
}

const ARROWS: Readonly<Record<string, readonly [right: number, up: number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
}
/** By keys the feet hold on only to what they all but touch, so that a step always gets away. */
const KEY_SNAP_PX = 2
const LEAST_PX = 44

/** What a person takes hold of to move the bird, by pointer, finger or arrow keys. */
export function BirdHandle({ frame, parts, size, place, name, onPut }: Props) {
  const grip = useRef<Spot | null>(null)
  const spot = spotOf(frame, place.feetAt)
  const heightPx = Math.max(LEAST_PX, size.heightM * frame.pxPerM)
  const widthPx = Math.max(LEAST_PX, heightPx / 2)
  const press = (event: PointerEvent<HTMLButtonElement>) => {
    event.currentTarget.setPointerCapture(event.pointerId)
    grip.current = { x: event.clientX - spot.x, y: event.clientY - spot.y }
  }
  const drag = (event: PointerEvent) => {
    if (!grip.current) return
    const to = { x: event.clientX - grip.current.x, y: event.clientY - grip.current.y }
    onPut(onNearestPerch(parts, frame, feetAtSpot(frame, place.feetAt, to)))
  }
  const letGo = () => {
    grip.current = null
  }
  const step = (event: KeyboardEvent) => {
    const arrow = ARROWS[event.key]
    if (!arrow) return
    event.preventDefault()
    const [right, up] = arrow
    const stepM = event.shiftKey ? 4 * STEP_M : STEP_M
    const feetAt = moved(frame, place.feetAt, right * stepM, up * stepM)
    onPut(onNearestPerch(parts, frame, feetAt, KEY_SNAP_PX))
  }
  return (
    <button
      type="button"
      className="bird-handle"
      aria-label={`Move the ${name}, in the ${frame.view} view; arrow keys move it two inches`}
      style={{
        left: spot.x - widthPx / 2,
        top: spot.y - heightPx,
        width: widthPx,
        height: heightPx,
      }}
      onPointerDown={press}
      onPointerMove={drag}
      onPointerUp={letGo}
      onPointerCancel={letGo}
      onKeyDown={step}
    />
  )
}
