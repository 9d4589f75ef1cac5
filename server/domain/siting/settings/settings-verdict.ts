import { type RegulatorBank, TAP_STEP_PU } from '#domain/electrical/regulator-bank.ts'
import { readBank } from '#domain/electrical/regulator-control.ts'
import { PHASES } from '#domain/units/phases.ts'
import { BASE_VOLTS120 } from '#domain/units/voltage-base.ts'
import type { CaseBench } from '../trial-bench.ts'
import { type BankZone, isBehind } from './bank-zone.ts'

/** A voltage this close to a limit, per unit, is on it. */
const ON_LIMIT_PU = 1e-6
const STEP_V = BASE_VOLTS120 * TAP_STEP_PU

/** What one setting of a bank does in one case, as solved last on a bench. */
export interface SettingsInCase {
  readonly caseId: string
  /** Customers of the whole feeder outside limits. */
  readonly outside: number
  /** The same where every unit rests at the low or the high edge of its band, whichever is worse. */
  readonly outsideAtEdges: number
  /** Least distance of a customer behind the bank from a limit, at those edges, volts; negative outside. */
  readonly marginV: number
  /** Volts at the first customers behind the bank, band at its high edge. */
  readonly firstCustomerV: number
  readonly lossKw: number
  /** How far each load stands outside limits, per unit, in the order of the judge. */
  readonly beyondPu: Float64Array
}

/** How far the volts of a zone could rise and fall with the band, by phase index, per unit. */
interface BandRoom {
  readonly up: readonly number[]
  readonly down: readonly number[]
}

/** Judges a case as solved last, with `bank` in service among the banks of the bench. */
export function judgeSettings(
  bench: CaseBench,
  bank: RegulatorBank,
  zone: BankZone,
  solved: { readonly outside: number; readonly lossKw: number },
): SettingsInCase {
  const { judge, pu } = bench
  const room = bandRoom(bench, bank)
  const beyondPu = new Float64Array(judge.weight.length)
  let outsideAtEdges = 0
  let marginPu = Number.POSITIVE_INFINITY
  for (let load = 0; load < judge.weight.length; load += 1) {
    const behind = isBehind(bench.sweep.network, zone.branch, judge.loadNode[load] ?? 0)
    let edgePu = Number.POSITIVE_INFINITY
    for (let i = judge.watchStart[load] ?? 0; i < (judge.watchStart[load + 1] ?? 0); i += 1) {
      const slot = judge.watched[i] ?? 0
      const value = pu[slot] ?? 0
      const held = zone.isIn[Math.floor(slot / 3)] === 1
      const low = value - (held ? (room.down[slot % 3] ?? 0) : 0)
      const high = value + (held ? (room.up[slot % 3] ?? 0) : 0)
      beyondPu[load] = Math.max(beyondPu[load] ?? 0, judge.lowPu - value, value - judge.highPu)
      edgePu = Math.min(edgePu, low - judge.lowPu, judge.highPu - high)
    }
    if (edgePu < -ON_LIMIT_PU) outsideAtEdges += judge.weight[load] ?? 0
    if (behind) marginPu = Math.min(marginPu, edgePu)
  }
  return {
    caseId: bench.loadCase.id,
    outside: solved.outside,
    outsideAtEdges,
    marginV: marginPu * BASE_VOLTS120,
    firstCustomerV: firstCustomerV(pu, zone, room),
    lossKw: solved.lossKw,
    beyondPu,
  }
}

function firstCustomerV(pu: Float64Array, zone: BankZone, room: BandRoom): number {
  const volts = zone.firstSlots.map((slot) => (pu[slot] ?? 0) + (room.up[slot % 3] ?? 0))
  return Math.max(0, ...volts) * BASE_VOLTS120
}

/**
 * A control rests anywhere between the edges of its band: where it comes from decides. A unit at the
 * end of its range goes no further.
 */
function bandRoom({ sweep }: CaseBench, bank: RegulatorBank): BandRoom {
  const { bandCentreV, bandwidthV, maxLower, maxRaise, phases, ptRatio } = bank.settings
  const { relayVolts } = readBank(sweep, bank)
  const puPerVolt = ptRatio / (sweep.network.nominalV[bank.branch] ?? 1)
  const up = [0, 0, 0]
  const down = [0, 0, 0]
  for (const phase of phases) {
    const index = PHASES.indexOf(phase)
    const tap = bank.taps[index] ?? 0
    const volts = relayVolts[index] ?? bandCentreV
    const toTop = Math.min(bandCentreV + bandwidthV / 2 - volts, (maxRaise - tap) * STEP_V)
    const toFoot = Math.min(volts - bandCentreV + bandwidthV / 2, (tap + maxLower) * STEP_V)
    up[index] = Math.max(0, toTop) * puPerVolt
    down[index] = Math.max(0, toFoot) * puPerVolt
  }
  return { up, down }
}
