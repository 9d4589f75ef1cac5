import { type RegulatorBank, TAP_STEP_PU } from '#domain/electrical/regulator-bank.ts'
import { readBank } from '#domain/electrical/regulator-control.ts'
import { BASE_VOLTS120 } from '#domain/units/voltage-base.ts'
import type { LimitJudge } from './limit-judge.ts'
import type { CaseBench } from './trial-bench.ts'

/**
 * How much more a voltage may move behind a bank than the bank's own output does: with constant
 * power the drop shrinks as the voltage rises.
 */
const SENSITIVITY = 1.5

/**
 * How far the voltage of each slot could still rise and fall if the input of the bank that holds it
 * changed: up to the edges of that bank's band, plus one step, per unit. Slots that no bank holds
 * have 0. Filled from the last solution of the bench, with `added` in service.
 */
export function fillRoom(
  bench: CaseBench,
  added: readonly RegulatorBank[],
  up: Float64Array,
  down: Float64Array,
): void {
  const { network } = bench.sweep
  const banks = [...bench.standing, ...added]
  const bankAt = new Map(banks.map((bank) => [bank.branch, roomOf(bench, bank)]))
  for (let node = 0; node < network.nodeCount; node += 1) {
    const room = bankAt.get(node)
    const parent = network.parent[node] as number
    for (let phase = 0; phase < 3; phase += 1) {
      const slot = node * 3 + phase
      const inherited = parent * 3 + phase
      const holds = room?.phases.has(phase) ?? false
      up[slot] = holds ? (room?.up ?? 0) : parent < 0 ? 0 : (up[inherited] as number)
      down[slot] = holds ? (room?.down ?? 0) : parent < 0 ? 0 : (down[inherited] as number)
    }
  }
}

/** The bank's widest room of any phase, since phases are coupled. */
function roomOf({ sweep }: CaseBench, bank: RegulatorBank) {
  const { bandCentreV, bandwidthV, phases } = bank.settings
  const { relayVolts } = readBank(sweep, bank)
  const indices = phases.map((phase) => 'ABC'.indexOf(phase))
  const volts = indices.map((index) => relayVolts[index] ?? bandCentreV)
  const upV = Math.max(0, bandCentreV + bandwidthV / 2 - Math.min(...volts))
  const downV = Math.max(0, Math.max(...volts) - (bandCentreV - bandwidthV / 2))
  const perUnit = (roomV: number) => (SENSITIVITY * roomV) / BASE_VOLTS120 + TAP_STEP_PU
  return { phases: new Set(indices), up: perUnit(upV), down: perUnit(downV) }
}

/**
 * Adds, load by load, the customers that stay outside however the room is used: below the low limit
 * by more than the voltage could rise, or above the high one by more than it could fall.
 *
 * @param slackPu Extra movement granted to every slot, per unit.
 */
export function addSurelyOutside(
  judge: LimitJudge,
  pu: Float64Array,
  room: { readonly up: Float64Array; readonly down: Float64Array },
  slackPu: number,
  into: Int32Array,
): void {
  const { watchStart, watched, weight } = judge
  for (let load = 0; load < weight.length; load += 1) {
    const end = watchStart[load + 1] as number
    for (let i = watchStart[load] as number; i < end; i += 1) {
      const slot = watched[i] as number
      const value = pu[slot] as number
      const isLow = value + (room.up[slot] as number) + slackPu < judge.lowPu
      const isHigh = value - (room.down[slot] as number) - slackPu > judge.highPu
      if (!isLow && !isHigh) continue
      into[load] = (into[load] as number) + (weight[load] as number)
      break
    }
  }
}
