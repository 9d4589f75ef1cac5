import type { PoleAssessment } from '#domain/avian/assessment/pole-assessment.ts'
import type { Exposure, RankedPole } from '#domain/avian/exposure/exposure.ts'
import type { MeasureSet } from '#domain/avian/measures/measure.ts'
import type { Programme, ProgrammeRequest } from '#domain/avian/programme/programme.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'

/** What is chosen for one run instead of what the program starts with. */
export interface BirdChoices {
  /** Id of the species that decides; the eagle when left out. */
  readonly speciesId?: string | undefined
  /** Id of a set of nest buffers; what is recorded with each nest when left out. */
  readonly bufferSetId?: string | undefined
  /** Folder of the land around, for open ground and relief. */
  readonly landFolder?: string | undefined
}

export interface Named {
  readonly id: string
  readonly name: string
}

export interface BirdAnswer {
  readonly species: Named
  readonly assessments: readonly PoleAssessment[]
  readonly cheapest: ReadonlyMap<string, MeasureSet>
  readonly exposures: readonly Exposure[]
  readonly ranked: readonly RankedPole[]
}

type OnProgress = (done: number, total: number, phase: string) => void

/** What the commands about birds call. */
export interface BirdTools {
  readonly birdSpecies: () => Promise<readonly Named[]>
  readonly bufferSets: () => Promise<readonly Named[]>
  readonly birds: (
    feeder: Feeder,
    choices: BirdChoices,
    onProgress: OnProgress,
  ) => Promise<BirdAnswer>
  readonly programme: (
    feeder: Feeder,
    answer: BirdAnswer,
    choices: BirdChoices,
    request: ProgrammeRequest,
    onProgress: OnProgress,
  ) => Promise<Programme>
}
