import type { BirdSettings } from '../avian/bird-settings.ts'
import type { PoleTopChoice } from '../avian/pole-top/pole-top-choice.ts'
import type { Regulator } from '../feeder/equipment.ts'
import type { Feeder } from '../feeder/feeder.ts'
import type { JobKind } from './job-kind.ts'
import type { PoleWork } from './job-plan.ts'
import type { StepSequence } from './step-sequence.ts'

export type ChosenMeasure = PoleWork['measures'][number]

export interface PlanInput {
  /** As recorded now, with the items, nests and finds of the record. */
  readonly feeder: Feeder
  readonly kind: JobKind
  readonly poles: readonly {
    readonly pole: string
    readonly measures: readonly ChosenMeasure[] | 'cheapest'
  }[]
  readonly bank?: {
    readonly regulator: Regulator
    /** The bank that stands there now. */
    readonly standing?: Regulator
    readonly loopOhm: number
    readonly elevationM?: number
  }
  readonly sequences: readonly { readonly sequence: StepSequence; readonly version: number }[]
  readonly poleTops: readonly PoleTopChoice[]
  readonly birdSettings?: BirdSettings
  /** Day for which seasons and looks that are due are told, as "2027-02-15". */
  readonly on: string
  /** Day until which the work is to be done, where one is given. */
  readonly dueOn?: string
}
