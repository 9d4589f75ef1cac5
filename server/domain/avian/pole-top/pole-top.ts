import type { Equipment } from '../../feeder/equipment.ts'
import type { Pole } from '../../feeder/pole.ts'
import type { Phase } from '../../units/phases.ts'
import type { Framing } from './framing.ts'
import type { Part } from './part.ts'
import type { PoleTopChoice } from './pole-top-choice.ts'

/** What stands behind the drawing of one pole. */
export interface PoleSite {
  readonly pole: Pole
  /** Phases that the line brings to the pole; none where no span ends there. */
  readonly phases: readonly Phase[]
  /** Phases that leave the main line here to the side. */
  readonly tapPhases: readonly Phase[]
  readonly equipment: readonly Equipment[]
  readonly choice: PoleTopChoice | null
}

/** Everything on top of a pole in three dimensions. */
export interface PoleTop {
  readonly poleId: string
  readonly framing: Framing
  readonly parts: readonly Part[]
  /** What was taken for granted since no record says it, in sentences; empty where all is recorded. */
  readonly assumptions: readonly string[]
}
