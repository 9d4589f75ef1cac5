import type { Regulator } from '#domain/feeder/equipment.ts'
import { shareValue, useShared } from '../device/shared-value.ts'

/** Banks that stand on trial, and whether screens show the line with or without them. */
export interface Trial {
  readonly banks: readonly Regulator[]
  /** Under the pointer in a list; shown in place of the chosen ones as long as it is there. */
  readonly preview: readonly Regulator[] | null
  readonly shown: 'before' | 'after'
}

const NONE: Trial = { banks: [], preview: null, shown: 'after' }
const trial = shareValue<Trial>(NONE)

export function tryBanks(banks: readonly Regulator[]): void {
  trial.set({ banks, preview: null, shown: 'after' })
}

export function previewBanks(preview: readonly Regulator[] | null): void {
  if (trial.get().preview === preview) return
  trial.set({ ...trial.get(), preview })
}

export function showSide(shown: Trial['shown']): void {
  trial.set({ ...trial.get(), shown })
}

export function endTrial(): void {
  trial.set(NONE)
}

export function useTrial(): Trial {
  return useShared(trial)
}

/** Banks that the screens show now. */
export function shownBanks({ banks, preview, shown }: Trial): readonly Regulator[] {
  return preview ?? (shown === 'after' ? banks : [])
}
