/** What makes it likely that birds are at a pole. Weights are judgement, and can be set. */
export const EXPOSURE_FACTORS = [
  'nest',
  'habitat',
  'open ground',
  'prominence',
  'taller than neighbours',
  'incidents nearby',
] as const
export type ExposureFactor = (typeof EXPOSURE_FACTORS)[number]

export type ExposureWeights = Readonly<Record<ExposureFactor, number>>

export interface Exposure {
  readonly poleId: string
  /** 0 to 1 each; null where nothing is recorded that would tell. */
  readonly factors: Readonly<Record<ExposureFactor, number | null>>
  /** Weighted mean of what is known, 0 to 1. */
  readonly score: number
  /** In sentences, the weightiest first: "nest in use 240 m away". */
  readonly reasons: readonly string[]
}

export interface RankedPole {
  readonly poleId: string
  /** What can be bridged, 0 to 1. */
  readonly hazard: number
  readonly exposure: number
  /** Product of the two. */
  readonly rank: number
  /** Share of trials with changed weights in which it stays among the first so many. */
  readonly staysAmongFirst: number | null
}
