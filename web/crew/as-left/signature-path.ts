/** The box that a signature is drawn in. */
export const SIGNATURE_BOX = { width: 300, height: 100 } as const

/** Points closer than this add nothing that can be seen; in units of the box. */
const LEAST_STEP = 1.5
/** Most letters of a path that the record takes. */
const MOST_LETTERS = 20_000

export interface Point {
  readonly x: number
  readonly y: number
}

/** A path with a new stroke begun at the point. */
export function beginStroke(path: string, point: Point): string {
  return grown(path, `M${written(point)}`)
}

/** A path with its stroke led on to the point; the same where the finger hardly moved. */
export function leadStroke(path: string, point: Point): string {
  const last = lastPoint(path)
  if (last && Math.hypot(point.x - last.x, point.y - last.y) < LEAST_STEP) return path
  return grown(path, `L${written(point)}`)
}

/** A path that is full takes no more, rather than being refused as a whole. */
function grown(path: string, part: string): string {
  return path.length + part.length > MOST_LETTERS ? path : path + part
}

function written({ x, y }: Point): string {
  const inside = (value: number, most: number) => Math.min(Math.max(value, 0), most).toFixed(1)
  return `${inside(x, SIGNATURE_BOX.width)} ${inside(y, SIGNATURE_BOX.height)}`
}

function lastPoint(path: string): Point | null {
  const at = Math.max(path.lastIndexOf('M'), path.lastIndexOf('L'))
  if (at < 0) return null
  const [x, y] = path
    .slice(at + 1)
    .split(' ')
    .map(Number)
  return x === undefined || y === undefined ? null : { x, y }
}
