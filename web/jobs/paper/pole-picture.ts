import type { Feeder } from '#domain/feeder/feeder.ts'
import type { Position } from '#domain/feeder/geometry.ts'
import type { Access } from '#domain/feeder/land.ts'
import type { FeederTrace } from '#domain/network/trace-feeder.ts'
import { M_PER_FT, M_PER_MILE } from '#domain/units/length.ts'
import type { Units } from '../../state/address.ts'
import { wayTo } from '../places/bearing.ts'
import { lineNeighbours } from '../places/line-neighbours.ts'
import { accessToPole } from '../places/nearest-access.ts'

export interface PicturePoint {
  readonly x: number
  readonly y: number
}

export interface PicturePole extends PicturePoint {
  readonly id: string
  readonly isTheOne: boolean
  /** Only the pole itself and its neighbours are named; the rest would not be readable. */
  readonly isNamed: boolean
}

export interface PictureAccess {
  readonly id: string
  readonly kind: Access['kind']
  readonly path: string
  /** Its name, on the line and clear of the poles that are named; null where it is not seen. */
  readonly name: (PicturePoint & { readonly words: string }) | null
}

/** The surroundings of a pole in a frame of pixels, north up. */
export interface PolePicture {
  readonly widthPx: number
  readonly heightPx: number
  readonly pxPerM: number
  readonly spans: readonly string[]
  readonly openSpans: readonly string[]
  readonly poles: readonly PicturePole[]
  readonly access: readonly PictureAccess[]
  readonly scale: { readonly lengthPx: number; readonly words: string }
}

/** On a sphere; over a few kilometres that is near enough for a picture. */
const M_PER_DEG = 111_195
const LEAST_REACH_M = 120
/** A road or gate this many times as far as the neighbours is told in words: they must stay apart. */
const MOST_TIMES_AS_FAR = 2.5
/** Room around what must be seen. */
const SLACK = 1.25

/** Draws so much of the feeder around a pole that its neighbours, road and gate are seen. */
export function polePicture(
  feeder: Feeder,
  trace: FeederTrace,
  poleId: string,
  frame: { readonly widthPx: number; readonly heightPx: number; readonly units: Units },
): PolePicture | null {
  const pole = feeder.poles.find(({ id }) => id === poleId)
  if (!pole) return null
  const neighbours = neighbourIds(feeder, trace, poleId)
  const { widthPx, heightPx, units } = frame
  const pxPerM = Math.min(widthPx, heightPx) / 2 / reachM(feeder, pole.at, neighbours)
  const spot = spotsAround(pole.at, pxPerM, widthPx, heightPx)
  const isSeen = ({ x, y }: PicturePoint) => x > 0 && y > 0 && x < widthPx && y < heightPx
  const poles = feeder.poles
    .filter(({ isAnonymousNode }) => !isAnonymousNode)
    .map(({ id, at }) => ({
      id,
      ...spot(at),
      isTheOne: id === poleId,
      isNamed: id === poleId || neighbours.has(id),
    }))
    .filter(isSeen)
  const named = poles.filter(({ isNamed }) => isNamed)
  return {
    widthPx,
    heightPx,
    pxPerM,
    ...linesOf(feeder, trace, spot),
    poles,
    access: accessesIn(feeder.access, spot, named, { widthPx, heightPx }),
    scale: scaleOf(pxPerM, widthPx / 3, units),
  }
}

function neighbourIds(feeder: Feeder, trace: FeederTrace, poleId: string): ReadonlySet<string> {
  const { up, down, acrossOpen } = lineNeighbours(feeder, trace, poleId)
  return new Set([...(up ? [up] : []), ...down, ...acrossOpen].map((next) => next.poleId))
}

function reachM(feeder: Feeder, at: Position, neighbours: ReadonlySet<string>): number {
  const { road, gate } = accessToPole(at, feeder.access)
  const neighboursM = feeder.poles
    .filter(({ id }) => neighbours.has(id))
    .map((pole) => wayTo(at, pole.at).distanceM)
  const nearM = Math.max(LEAST_REACH_M, ...neighboursM)
  const waysM = [road, gate]
    .flatMap((found) => (found ? [found.way.distanceM] : []))
    .filter((lengthM) => lengthM <= nearM * MOST_TIMES_AS_FAR)
  return Math.max(nearM, ...waysM) * SLACK
}

type SpotOf = (at: Position) => PicturePoint

function spotsAround(middle: Position, pxPerM: number, widthPx: number, heightPx: number): SpotOf {
  const squeeze = Math.cos((middle[1] * Math.PI) / 180)
  return ([lon, lat]) => ({
    x: round(widthPx / 2 + (lon - middle[0]) * squeeze * M_PER_DEG * pxPerM),
    y: round(heightPx / 2 - (lat - middle[1]) * M_PER_DEG * pxPerM),
  })
}

const round = (px: number) => Math.round(px * 10) / 10
const pathOf = (path: readonly Position[], spot: SpotOf) =>
  `M${path.map((at) => `${spot(at).x} ${spot(at).y}`).join('L')}`

function linesOf(
  { spans }: Feeder,
  trace: FeederTrace,
  spot: SpotOf,
): Pick<PolePicture, 'spans' | 'openSpans'> {
  const closed = new Set(trace.spans.map(({ span }) => span.id))
  const drawn = (isClosed: boolean) =>
    spans.filter(({ id }) => closed.has(id) === isClosed).map(({ path }) => pathOf(path, spot))
  return { spans: drawn(true), openSpans: drawn(false) }
}

interface Room {
  readonly widthPx: number
  readonly heightPx: number
}

/** Each name keeps clear of the poles that are named, and of the names before it. */
function accessesIn(
  access: readonly Access[],
  spot: SpotOf,
  named: readonly PicturePoint[],
  room: Room,
): PictureAccess[] {
  const taken = [...named]
  return access.map((one) => {
    const drawn = accessIn(one, spot, taken, room)
    if (drawn.name) taken.push(drawn.name)
    return drawn
  })
}

function accessIn(
  { id, kind, path, name }: Access,
  spot: SpotOf,
  named: readonly PicturePoint[],
  room: Room,
): PictureAccess {
  const at = name === undefined ? null : clearest(sampled(path.map(spot), room), named, room)
  return {
    id,
    kind,
    path: pathOf(path, spot),
    name: at && name !== undefined ? { ...at, words: name } : null,
  }
}

const SAMPLE_PX = 12
/** More samples than this to a piece would be far outside of the picture. */
const MOST_SAMPLES = 2000

/** Points along what of a line may be seen, near enough to each other to choose one. */
function sampled(line: readonly PicturePoint[], room: Room): PicturePoint[] {
  return line.flatMap((from, index) => {
    const to = line[index + 1]
    if (!to || isBeside(from, to, room)) return []
    const pieces = Math.min(
      MOST_SAMPLES,
      Math.max(1, Math.ceil(Math.hypot(to.x - from.x, to.y - from.y) / SAMPLE_PX)),
    )
    return Array.from({ length: pieces }, (_, piece) => ({
      x: round(from.x + ((to.x - from.x) * piece) / pieces),
      y: round(from.y + ((to.y - from.y) * piece) / pieces),
    }))
  })
}

function isBeside(a: PicturePoint, b: PicturePoint, { widthPx, heightPx }: Room): boolean {
  const isLeftOrAbove = Math.max(a.x, b.x) < 0 || Math.max(a.y, b.y) < 0
  return isLeftOrAbove || Math.min(a.x, b.x) > widthPx || Math.min(a.y, b.y) > heightPx
}

/** Room that a name takes to the right of its place and above it. */
const NAME_PX = { x: 100, y: 24 }
/** Farther from a named pole than this is no better. */
const CLEAR_PX = 90

/** The place with the most room around it; null where the line is not in the picture. */
function clearest(
  places: readonly PicturePoint[],
  named: readonly PicturePoint[],
  { widthPx, heightPx }: Room,
): PicturePoint | null {
  let best: PicturePoint | null = null
  let bestPx = -1
  for (const place of places) {
    const { x, y } = place
    const isSeen = x > 4 && x < widthPx - NAME_PX.x && y > NAME_PX.y && y < heightPx - NAME_PX.y
    if (!isSeen) continue
    const roomPx = Math.min(CLEAR_PX, ...named.map((one) => Math.hypot(one.x - x, one.y - y)))
    if (roomPx > bestPx) {
      best = place
      bestPx = roomPx
    }
  }
  return best
}

/** Lengths that a person can picture, longest first. */
const STEPS: Readonly<Record<Units, readonly (readonly [words: string, lengthM: number])[]>> = {
  us: [
    ['1 mi', M_PER_MILE],
    ['½ mi', M_PER_MILE / 2],
    ['¼ mi', M_PER_MILE / 4],
    ['500 ft', 500 * M_PER_FT],
    ['200 ft', 200 * M_PER_FT],
    ['100 ft', 100 * M_PER_FT],
  ],
  metric: [
    ['1 km', 1000],
    ['500 m', 500],
    ['200 m', 200],
    ['100 m', 100],
    ['50 m', 50],
    ['20 m', 20],
  ],
}

function scaleOf(pxPerM: number, mostPx: number, units: Units): PolePicture['scale'] {
  const steps = STEPS[units]
  const [words, lengthM] = steps.find(([, step]) => step * pxPerM <= mostPx) ??
    steps.at(-1) ?? ['20 m', 20]
  return { words, lengthPx: round(lengthM * pxPerM) }
}
