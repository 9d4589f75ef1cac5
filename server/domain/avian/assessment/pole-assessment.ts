import type { ContactPair } from '../pole-top/contact-pair.ts'
import type { PoleTop } from '../pole-top/pole-top.ts'

/**
 * Follows from geometry and condition, never from a tick box.
 *
 * - `separated`: as framed, no pair can be bridged by the design species.
 * - `covered`: none is left thanks to what is installed and sound.
 * - `partly done`: something sound is installed, and pairs are left.
 * - `failed`: a pair is open that an item on the pole closed until it failed.
 * - `open`: pairs can be bridged and nothing was done.
 * - `unknown`: nothing is recorded from which the pole top could be drawn.
 */
export const POLE_STATES = [
  'separated',
  'covered',
  'partly done',
  'open',
  'failed',
  'unknown',
] as const
export type PoleState = (typeof POLE_STATES)[number]

export interface SpeciesResult {
  readonly speciesId: string
  readonly pairs: number
  readonly tightest: ContactPair | null
}

export interface PoleAssessment {
  readonly poleId: string
  readonly state: PoleState
  /** As it stands, with what is installed and sound; null where the state is unknown. */
  readonly poleTop: PoleTop | null
  /** Pairs left for the design species, tightest first. */
  readonly pairs: readonly ContactPair[]
  /** How many there would be without anything installed. */
  readonly pairsAsFramed: number
  /** Each species, the design species too. */
  readonly bySpecies: readonly SpeciesResult[]
  /** What is worth knowing, in sentences: separations recorded in the field that are tighter than the drawing, and the like. */
  readonly notes: readonly string[]
}
