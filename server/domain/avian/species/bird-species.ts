import type { Sureness } from '../eagle-guidance.ts'

/** What a bird spans: flesh to flesh, without the feathers. */
export interface BirdSize {
  /** Wrist to wrist across spread wings, metres. */
  readonly breadthM: number
  /** Head to foot as it stands, metres. */
  readonly heightM: number
}

/** A figure with where it is from. */
export interface SourcedM {
  readonly valueM: number
  readonly sureness: Sureness
  readonly source: string
}

export interface BirdSpecies {
  /** "golden-eagle" */
  readonly id: string
  /** "golden eagle" */
  readonly name: string
  readonly isEagle: boolean
  readonly breadth: SourcedM
  readonly height: SourcedM
  /** Wing tip to wing tip and bill to tail of the largest: what a wet bird spans. */
  readonly wingspan: SourcedM
  readonly bodyLength: SourcedM
  readonly note: string
}
