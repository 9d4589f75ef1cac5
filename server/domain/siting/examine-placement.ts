import { branchPower } from '#domain/electrical/branch-power.ts'
import type { RegulatorBank } from '#domain/electrical/regulator-bank.ts'
import { readBank } from '#domain/electrical/regulator-control.ts'
import type { ByPhase } from '#domain/electrical/solution.ts'
import { DEFAULT_LIMITS } from '#domain/electrical/sweep.ts'
import { PHASES, type Phase } from '#domain/units/phases.ts'
import { BASE_VOLTS120 } from '#domain/units/voltage-base.ts'
import { placeBanks, type Site } from './placement.ts'
import type { Study } from './study.ts'
import { searchTaps } from './tap-search.ts'
import { type SolvedCase, type Trial, trialOf } from './trial.ts'
import { type CaseBench, tryControlled } from './trial-bench.ts'

/** What one bank does in one case. */
export interface BankReport {
  readonly caseId: string
  readonly taps: ByPhase<number>
  /** Larger of the currents before and behind the unit, of the worst phase. */
  readonly peakA: number
  /** Power toward the load through all units. */
  readonly powerKw: number
  /** Load-side volts on the feeder's 120 V base, highest of the phases. */
  readonly highestOutputV: number
  readonly lowestInputV: number
  readonly lowestInputPhase: Phase
  /** Phases that want to go further than the range allows. */
  readonly atLimit: readonly Phase[]
}

export interface Examined {
  readonly sites: readonly Site[]
  readonly banks: readonly RegulatorBank[]
  readonly trial: Trial
  /** By bank, then by case. */
  readonly reports: readonly (readonly BankReport[])[]
}

/** Customers outside in a case; NaN where the taps do not settle. */
export interface WorseStepping {
  readonly caseId: string
  readonly outside: number
}

/** Runs a placement once more, to full accuracy, and reads its banks. Null where a case does not settle. */
export function examinePlacement(
  study: Study,
  sites: readonly Site[],
  banks: readonly RegulatorBank[] = placeBanks(study.network, study.request, sites),
): Examined | null {
  const isFree = study.request.taps === 'search'
  const cases: SolvedCase[] = []
  const reports: BankReport[][] = banks.map(() => [])
  for (const bench of study.benches) {
    const solved = isFree
      ? searchTaps(bench, banks, study.request.goal)
      : tryControlled(bench, banks, DEFAULT_LIMITS)
    if (!solved) return null
    cases.push({ ...solved, taps: banks.map((bank) => Int8Array.from(bank.taps)) })
    banks.forEach((bank, at) => {
      reports[at]?.push(reportOn(bench, bank, isFree))
    })
  }
  return { sites, banks, trial: trialOf(study.benches, cases), reports }
}

/** Cases in which stepping one step at a time from neutral leaves more customers outside. */
export function worseStepping(study: Study, { banks, trial }: Examined): WorseStepping[] {
  if (study.request.taps === 'search') return []
  return study.benches.flatMap((bench, index) => {
    const outside = tryControlled(bench, banks, DEFAULT_LIMITS, 'stepped')?.outside
    const expected = trial.cases[index]?.outside ?? 0
    const isWorse = outside === undefined || outside > expected
    return isWorse ? [{ caseId: bench.loadCase.id, outside: outside ?? Number.NaN }] : []
  })
}

function reportOn(bench: CaseBench, bank: RegulatorBank, isFree: boolean): BankReport {
  const { sweep } = bench
  const { network } = sweep
  const reading = readBank(sweep, bank)
  const { phases, ptRatio, maxRaise, maxLower, bandCentreV, bandwidthV } = bank.settings
  const parent = network.parent[bank.branch] ?? 0
  const onBase = (ptRatio * BASE_VOLTS120) / (network.nominalV[parent] ?? 1)
  const units = phases.map((phase) => {
    const index = PHASES.indexOf(phase)
    const tap = bank.taps[index] ?? 0
    const gain = sweep.state.gain[bank.branch * 3 + index] ?? 1
    const errorV = (reading.relayVolts[index] ?? bandCentreV) - bandCentreV
    const wantsUp = isFree || errorV < -bandwidthV / 2
    const wantsDown = isFree || errorV > bandwidthV / 2
    return {
      phase,
      tap,
      amps: (reading.currentA[index] ?? 0) * Math.max(1, gain),
      outputV: (reading.outputVolts120[index] ?? 0) * onBase,
      inputV: ((reading.outputVolts120[index] ?? 0) * onBase) / gain,
      isAtLimit: (tap >= maxRaise && wantsUp) || (tap <= -maxLower && wantsDown),
    }
  })
  const lowest = units.toSorted((a, b) => a.inputV - b.inputV)[0]
  return {
    caseId: bench.loadCase.id,
    taps: Object.fromEntries(units.map(({ phase, tap }) => [phase, tap])),
    peakA: Math.max(...units.map((unit) => unit.amps)),
    powerKw: branchPower(sweep, bank.branch).sendingW / 1000,
    highestOutputV: Math.max(...units.map((unit) => unit.outputV)),
    lowestInputV: lowest?.inputV ?? Number.NaN,
    lowestInputPhase: lowest?.phase ?? 'A',
    atLimit: units.filter((unit) => unit.isAtLimit).map(({ phase }) => phase),
  }
}
