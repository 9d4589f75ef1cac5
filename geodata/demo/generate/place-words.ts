import { compassWord } from '#domain/units/compass-word.ts'
import { feetOfMetres, M_PER_MILE, milesOfMetres } from '#domain/units/length.ts'
import { nearestOn } from './curve.ts'
import { distance, headingDeg, type Point } from './plane.ts'
import type { Road } from './valley.ts'

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
  const side = compassWord(headingDeg(nearest.point, pole))
  if (nearest.distanceM > 45) {
    return `${distanceInWords(nearest.distanceM)} ${side} of ${road.name}, across open ground`
  }
  const mark = nearestLandmark(pole, road, landmarks)
  if (!mark || mark.awayM > 4_000) return `${side} side of ${road.name}`
  const toward = compassWord(headingDeg(mark.landmark.at, pole))
  return mark.awayM < 35
    ? `${side} side of ${road.name}, at the ${mark.landmark.words}`
    : `${side} side of ${road.name}, ${distanceInWords(mark.awayM)} ${toward} of the ${mark.landmark.words}`
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

/** In both units, since the sentence is read by whoever works there: "2,800 ft (850 m)", "0.8 mi (1,350 m)". */
function distanceInWords(lengthM: number): string {
  const metres = Math.max(10, rounded(lengthM, lengthM < 200 ? 10 : 50))
  const feet = rounded(feetOfMetres(metres), metres < 60 ? 10 : 50)
  const us =
    metres < M_PER_MILE / 2
      ? `${feet.toLocaleString('en-US')} ft`
      : `${milesOfMetres(metres).toFixed(1)} mi`
  return `${us} (${metres.toLocaleString('en-US')} m)`
}

const rounded = (value: number, step: number): number => Math.round(value / step) * step
