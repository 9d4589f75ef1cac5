import { isElectrode, type Part } from '#domain/avian/pole-top/part.ts'
import { type PartShape, shapeOf } from './part-shape.ts'
import type { Frame } from './view-frame.ts'

/** Choosing parts on the drawing. */
export interface PartPicking {
  readonly picked: ReadonlySet<string>
  readonly onPick: (partId: string) => void
}

interface Props extends PartPicking {
  readonly frame: Frame
  readonly parts: readonly Part[]
}

const LEAST_PX = 24

/** What a person presses to choose a bare part of the drawing; small ones lie over large ones. */
export function PartHandles({ frame, parts, picked, onPick }: Props) {
  return parts
    .filter(isElectrode)
    .map((part) => ({ part, box: boxOf(shapeOf(part, frame)) }))
    .sort((a, b) => b.box.width * b.box.height - a.box.width * a.box.height)
    .map(({ part, box }) => (
      <button
        key={part.id}
        type="button"
        className="part-handle"
        // By keyboard the lists beside the drawing give the same.
        tabIndex={-1}
        title={part.label}
        aria-label={`${part.label}, in the ${frame.view} view`}
        aria-pressed={picked.has(part.id)}
        style={box}
        onClick={() => onPick(part.id)}
      />
    ))
}

function boxOf({ from, to, halfPx }: PartShape) {
  const width = Math.max(LEAST_PX, Math.abs(to.x - from.x) + 2 * halfPx)
  const height = Math.max(LEAST_PX, Math.abs(to.y - from.y) + 2 * halfPx)
  return {
    left: (from.x + to.x - width) / 2,
    top: (from.y + to.y - height) / 2,
    width,
    height,
  }
}
