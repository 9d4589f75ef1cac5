import { nearestOn } from './curve.ts'
import { distance, headingDeg, type Point } from './plane.ts'
import type { Road } from './valley.ts'

const COMPASS = [
  'north',
  'north-east',
  'east',
  'south-east',
  'south',
  'south-west',
  'west',
  'north-west',
] as const

/** A place along the roads that a driver can find without a map. */
export interface Landmark {
  readonly words: string
  readonly at: Point
}

/** Directions to a pole: side of the road and distance from a landmark, or how far off the road. */
export function directionsTo(
  pole: Point,
  roads: readonly Road[],
  landmarks: readonly Landmark[],
): string {
  const { road, nearest } = nearestRoad(pole, roads)
  const side = compassWords(headingDeg(nearest.point, pole))
  if (nearest.distanceM > 45) {
    return `${roundedM(nearest.distanceM)} ${side} of ${road.name}, across open ground`
  }
  const mark = nearestLandmark(pole, road, landmarks)
  if (!mark || mark.awayM > 4_000) return `${side} side of ${road.name}`
  const toward = compassWords(headingDeg(mark.landmark.at, pole))
  return mark.awayM < 35
    ? `${side} side of ${road.name}, at the ${mark.landmark.words}`
    : `${side} side of ${road.name}, ${roundedM(mark.awayM)} ${toward} of the ${mark.landmark.words}`
}

function nearestRoad(pole: Point, roads: readonly Road[]) {
  const found = roads.map((road) => ({ road, nearest: nearestOn(road.line, pole) }))
  const [first] = found.sort((a, b) => a.nearest.distanceM - b.nearest.distanceM)
  if (!first) throw new Error('Expected at least one road, got none.')
  return first
}

/** Only a landmark on the same road helps, and not one that merely repeats its name. */
function nearestLandmark(pole: Point, road: Road, landmarks: readonly Landmark[]) {
  return landmarks
    .filter(({ words, at }) => nearestOn(road.line, at).distanceM < 30 && !isName(words, road.name))
    .map((landmark) => ({ landmark, awayM: distance(landmark.at, pole) }))
    .sort((a, b) => a.awayM - b.awayM)[0]
}

/** On its own lane the turn-off still helps; a corner or junction "of the road with itself" does not. */
function isName(words: string, roadName: string): boolean {
  return words === `${roadName} corner` || words === `${roadName} junction`
}

export function compassWords(heading: number): string {
  return COMPASS[Math.round(heading / 45) % 8] ?? 'north'
}

function roundedM(lengthM: number): string {
  const step = lengthM < 200 ? 10 : 50
  return `${Math.max(step, Math.round(lengthM / step) * step)} m`
}
