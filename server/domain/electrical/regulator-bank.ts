import { PHASES } from '#domain/units/phases.ts'
import type { BankSettings, CompiledRegulator } from './network.ts'

/** Voltage change of one step: 32 steps over ±10 % (IEEE C57.15, from memory). */
export const TAP_STEP_PU = 0.00625

/** A regulator bank at the near end of a branch, with its positions. Hypothetical banks look the same. */
export interface RegulatorBank {
  readonly id: string
  readonly branch: number
  readonly settings: BankSettings
  /** Positions of A, B, C; phases without a unit stay 0. */
  readonly taps: Int8Array
}

export function bankAtNeutral(id: string, branch: number, settings: BankSettings): RegulatorBank {
  return { id, branch, settings, taps: new Int8Array(3) }
}

export function bankOfRegulator(
  regulator: CompiledRegulator,
  startTaps: 'recorded' | 'neutral',
): RegulatorBank {
  const bank = bankAtNeutral(regulator.id, regulator.branch, regulator.settings)
  if (startTaps === 'neutral') return bank
  for (const phase of regulator.settings.phases) {
    const index = PHASES.indexOf(phase)
    bank.taps[index] = regulator.recordedTaps[index] ?? 0
  }
  return bank
}

/**
 * Load-side over source-side voltage at position `tap`.
 * Type A: 1 + 0.00625 n. Type B: 1 / (1 − 0.00625 n) (Kersting, chapter 7, from memory).
 */
export function tapGain(windingType: 'A' | 'B', tap: number): number {
  return windingType === 'A' ? 1 + TAP_STEP_PU * tap : 1 / (1 - TAP_STEP_PU * tap)
}
