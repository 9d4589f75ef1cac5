import type { Frame, Spot } from './view-frame.ts'

/**
 * The piece of a line that lies in the frame, by the shares of its length at which it crosses the
 * edges. A line that lies outside altogether stays as it is.
 */
export function clipToFrame(from: Spot, to: Spot, frame: Frame): [Spot, Spot] {
  const [dx, dy] = [to.x - from.x, to.y - from.y]
  const [enterX, leaveX] = inside(from.x, dx, frame.widthPx)
  const [enterY, leaveY] = inside(from.y, dy, frame.heightPx)
  const enter = Math.max(0, enterX, enterY)
  const leave = Math.min(1, leaveX, leaveY)
  if (enter >= leave) return [from, to]
  const at = (share: number): Spot => ({ x: from.x + share * dx, y: from.y + share * dy })
  return [at(enter), at(leave)]
}

/** Shares between which one coordinate lies from 0 to `most`. */
function inside(start: number, along: number, most: number): [enter: number, leave: number] {
  if (along === 0) {
    return start >= 0 && start <= most ? [-Infinity, Infinity] : [Infinity, -Infinity]
  }
  const shares = [-start / along, (most - start) / along]
  return [Math.min(...shares), Math.max(...shares)]
}
