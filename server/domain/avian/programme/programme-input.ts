import type { Feeder } from '../../feeder/feeder.ts'
import type { PoleAssessment } from '../assessment/pole-assessment.ts'
import type { BirdSettings } from '../bird-settings.ts'
import type { RankedPole } from '../exposure/exposure.ts'
import type { MeasureSet } from '../measures/measure.ts'

/** What a programme is planned from; nests are those of the record. */
export interface ProgrammeInput {
  readonly feeder: Feeder
  readonly assessments: readonly PoleAssessment[]
  readonly ranked: readonly RankedPole[]
  /** The cheapest set of each pole that has something to do. */
  readonly cheapest: ReadonlyMap<string, MeasureSet>
  readonly settings?: BirdSettings | undefined
}
