import type { Part, PartKind, Point } from '#domain/avian/pole-top/part.ts'

const RUNS_ON: readonly PartKind[] = ['conductor', 'neutral', 'guy', 'pole', 'ground wire']
/** An end so far from the pole top is where the model stops, not the wire, metres. */
const FAR_M = 1.2
/** Out of every drawing, metres. */
const MORE_M = 6

/** The ends of a part as they are drawn: wires, guys and the pole itself run out of the drawing. */
export function runningOn({ kind, from, to }: Part): Pick<Part, 'from' | 'to'> {
  if (!RUNS_ON.includes(kind)) return { from, to }
  return { from: isFar(from) ? beyond(to, from) : from, to: isFar(to) ? beyond(from, to) : to }
}

const isFar = ([x, y, z]: Point): boolean => Math.hypot(x, y) > FAR_M || z < -2 * FAR_M

function beyond(start: Point, end: Point): Point {
  const [dx, dy, dz] = [end[0] - start[0], end[1] - start[1], end[2] - start[2]]
  const lengthM = Math.hypot(dx, dy, dz)
  if (lengthM < FAR_M / 2) return end
  const more = MORE_M / lengthM
  return [end[0] + dx * more, end[1] + dy * more, end[2] + dz * more]
}
