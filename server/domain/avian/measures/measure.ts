import type { MeasureKind } from '../../feeder/measure-kinds.ts'
import type { Sureness } from '../eagle-guidance.ts'

/** What is known, or assumed, of a kind of measure. */
export interface MeasureFacts {
  readonly kind: MeasureKind
  /** What it takes away, in words. */
  readonly removes: string
  /** What it does not do and what to look out for, in words. */
  readonly limits: string
  readonly lifeYears: number
  /** Of one pole, labour without the way there; an assumption unless a person entered it. */
  readonly costUsd: number
  readonly sureness: Sureness
  readonly source: string
}

/** One measure on one pole. */
export interface MeasureUse {
  readonly kind: MeasureKind
  /** Ids of the parts that it covers or changes. */
  readonly partIds: readonly string[]
  /** New dimension of a longer or lowered arm or an extension, metres; left out for the others. */
  readonly dimensionM?: number
}

/** Measures that close all pairs together, or as many as can be closed. */
export interface MeasureSet {
  readonly uses: readonly MeasureUse[]
  readonly costUsd: number
  /** Ids of the pairs that stay open, as "partA~partB". */
  readonly leftOpen: readonly string[]
}
