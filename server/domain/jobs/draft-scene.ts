import type { BirdSettings } from '../avian/bird-settings.ts'
import type { PoleSite, PoleTop } from '../avian/pole-top/pole-top.ts'
import type { Feeder } from '../feeder/feeder.ts'
import type { FeederTrace } from '../network/trace-feeder.ts'
import type { JobKind } from './job-kind.ts'
import type { BankWork, BypassedCase, PoleWork } from './job-plan.ts'

/** What the parts of a plan are made from. */
export interface DraftScene {
  readonly feeder: Feeder
  readonly trace: FeederTrace
  readonly kind: JobKind
  readonly bank: BankWork | undefined
  readonly works: readonly PoleWork[]
  /** As they will stand, with a bank that is set; poles of which nothing can be drawn are left out. */
  readonly sites: ReadonlyMap<string, PoleSite>
  readonly tops: ReadonlyMap<string, PoleTop>
  /** Highest current of any unit in any case that could be solved; null where none could. */
  readonly peakA: number | null
  readonly birdSettings: BirdSettings | undefined
  /** Day of drafting, by which seasons and looks that are due are told. */
  readonly on: string
  readonly dueOn: string | undefined
  /** Empty where the work bypasses nothing. */
  readonly whileBypassed: readonly BypassedCase[]
}

/** The pole that the bank stands on or is to stand on. */
export function isBankPole({ bank }: DraftScene, pole: string): boolean {
  return bank?.regulator.pole === pole
}
