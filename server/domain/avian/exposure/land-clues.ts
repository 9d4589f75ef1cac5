import type { Habitat } from '../../feeder/birds.ts'
import type { Position } from '../../feeder/geometry.ts'
import { areasAt } from './areas-at.ts'
import { type Clue, NOT_KNOWN, NOTHING_THERE } from './clue.ts'
import type { GroundArea } from './surroundings.ts'

type ClueAt = (at: Position) => Clue

/** 1 inside a habitat area, 0 outside all; unknown where none is recorded. */
export function habitatClues(habitat: readonly Habitat[]): ClueAt {
  if (habitat.length === 0) return () => NOT_KNOWN
  const find = areasAt(habitat)
  return (at) => {
    const [found] = find(at)
    if (!found) return NOTHING_THERE
    const of = found.species === undefined ? '' : ` of ${found.species}`
    return { value: 1, reason: `inside habitat${of}: ${found.name}` }
  }
}

/**
 * How open ground is by what grows or stands on it: hunting birds seek a pole most where nothing
 * else stands. That unforested, unpaved ground raises the risk is from memory of the model of Dwyer,
 * Harness and Donohue 2014; the values are judgement.
 */
const OPENNESS: Readonly<Record<string, number>> = {
  rangeland: 1,
  sagebrush: 1,
  grassland: 1,
  'hay-meadow': 0.8,
  irrigated: 0.7,
  pivot: 0.7,
  cropland: 0.7,
  airstrip: 0.6,
  'gravel-pit': 0.5,
  woodland: 0.1,
  pine: 0.1,
  forest: 0.1,
  town: 0,
  substation: 0,
}

/**
 * The last area that holds a place lies on top of those before it. Unknown outside all areas and on
 * ground of a kind that is not in the table.
 */
export function openGroundClues(ground: readonly GroundArea[]): ClueAt {
  if (ground.length === 0) return () => NOT_KNOWN
  const find = areasAt(ground.filter(({ kind }) => OPENNESS[kind] !== undefined))
  return (at) => {
    const top = find(at).at(-1)
    const value = top && OPENNESS[top.kind]
    if (top === undefined || value === undefined) return NOT_KNOWN
    return { value, reason: value >= 0.5 ? `open ground: ${top.kind}` : '' }
  }
}
