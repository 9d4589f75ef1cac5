import { memoLast } from '../../state/memo-last.ts'
import type { BirdRecord } from '../use-bird-record.ts'
import { type ListedPole, listPoles, type PolesToList } from './listed-pole.ts'

const listedOf = memoLast(
  (
    feeder: PolesToList['feeder'],
    items: PolesToList['items'],
    settings: PolesToList['settings'],
    assessments: PolesToList['assessments'],
    exposures: PolesToList['exposures'],
    ranked: PolesToList['ranked'],
  ) => listPoles({ feeder, items, settings, assessments, exposures, ranked }),
)

/** The poles in their order, put together once for all who show them. */
export function listedPoles(record: BirdRecord): readonly ListedPole[] {
  const { feeder, items, settings, assessments, exposures, ranked } = record
  return listedOf(feeder, items, settings, assessments, exposures, ranked)
}
