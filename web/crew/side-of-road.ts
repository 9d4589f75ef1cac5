import { bearing, point } from '@turf/turf'
import type { Position } from '#domain/feeder/geometry.ts'
import type { Access } from '#domain/feeder/land.ts'
import { type CompassWord, compassWord } from '#domain/units/compass-word.ts'
import { type WayTo, wayTo } from '../jobs/places/bearing.ts'

/** Nearer than this a pole stands in the road as drawn, and its side is not known. */
const LEAST_OFF_M = 3
/** Farther than this nobody speaks of a side of the road. */
const MOST_OFF_M = 250

export interface SideOfRoad {
  /** Side by the compass: "north". */
  readonly compass: CompassWord
  /** Which way the road runs, and on which hand the pole is for whoever drives that way. */
  readonly driving: CompassWord
  readonly hand: 'left' | 'right'
}

/**
 * On which side of a road or track a pole stands, from the piece of the road that is nearest.
 * Null beside no road, too near to tell, past its end, or too far off to matter.
 *
 * @param nearest point of the road that is nearest to the pole
 */
export function sideOfRoad(pole: Position, road: Access, nearest: Position): SideOfRoad | null {
  if (road.kind === 'gate') return null
  const away = wayTo(nearest, pole)
  if (away.distanceM < LEAST_OFF_M || away.distanceM > MOST_OFF_M) return null
  const piece = nearestPiece(road.path, nearest)
  if (!piece) return null
  const alongDeg = (bearing(point(piece[0]), point(piece[1])) + 360) % 360
  const turnDeg = (away.bearingDeg - alongDeg + 360) % 360
  if (isPastTheEnd(turnDeg)) return null
  return {
    compass: compassWord(away.bearingDeg),
    driving: compassWord(alongDeg),
    hand: turnDeg < 180 ? 'right' : 'left',
  }
}

/** The way from the road runs along it rather than across: the pole stands beyond where the road ends. */
function isPastTheEnd(turnDeg: number): boolean {
  const acrossDeg = Math.abs(90 - (turnDeg % 180))
  return acrossDeg > 45
}

/** The piece that a point on the line lies on: the one whose ends are together nearest to it. */
function nearestPiece(
  path: readonly Position[],
  at: Position,
): readonly [Position, Position] | null {
  let best: readonly [Position, Position] | null = null
  let leastM = Number.POSITIVE_INFINITY
  path.slice(1).forEach((end, index) => {
    const start = path[index] ?? end
    const lengthM = lengthOf(wayTo(start, end))
    const detourM = lengthOf(wayTo(start, at)) + lengthOf(wayTo(at, end)) - lengthM
    if (lengthM > 0 && detourM < leastM) {
      leastM = detourM
      best = [start, end]
    }
  })
  return best
}

const lengthOf = ({ distanceM }: WayTo): number => distanceM

/** "North side of Skillet Road: on the right hand driving east." */
export function sideInWords({ compass, driving, hand }: SideOfRoad, roadName: string): string {
  const side = compass.charAt(0).toUpperCase() + compass.slice(1)
  return `${side} side of ${roadName}: on the ${hand} hand driving ${driving}.`
}
