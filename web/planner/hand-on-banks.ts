import type { ProposedBank } from '#domain/siting/site-result.ts'
import { shareValue } from '../device/shared-value.ts'

/** Banks that a person moves along the line. */
export interface HandOnBanks {
  /** Banks of the proposal that was open; for another one this says nothing. */
  readonly proposed: readonly ProposedBank[]
  /** As they stood before the last move, with the settings that were shown there. */
  readonly banks: readonly ProposedBank[]
}

/** Null as long as nothing was moved. */
export const handOnBanks = shareValue<HandOnBanks | null>(null)

/** Whether a bank is being dragged: it is judged where it is let go, not on the way. */
export const isBankDragged = shareValue(false)
