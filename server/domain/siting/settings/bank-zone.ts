import type { Network } from '#domain/electrical/network.ts'
import type { RegulatorBank } from '#domain/electrical/regulator-bank.ts'
import { PHASES } from '#domain/units/phases.ts'
import type { LimitJudge } from '../limit-judge.ts'
import { isBeyond } from '../placement.ts'

/** The part of the line whose volts a bank alone decides: up to the next bank or transformer. */
export interface BankZone {
  readonly branch: number
  /** 1 for nodes of the zone. */
  readonly isIn: Uint8Array
  /** Near ends of the banks and transformers that end it. */
  readonly endNodes: readonly number[]
  /** Slots of the customers nearest to the bank, one for each phase that has any. */
  readonly firstSlots: readonly number[]
}

/** The zone behind a bank, with the other banks of the trial in place. */
export function zoneOf(
  network: Network,
  judge: LimitJudge,
  bank: RegulatorBank,
  others: readonly RegulatorBank[],
): BankZone {
  const { branch } = bank
  const { nominalV, parent, subtreeEnd } = network
  const isIn = new Uint8Array(network.nodeCount)
  const otherBranches = new Set(others.map((other) => other.branch))
  const endNodes = new Set<number>()
  isIn[branch] = 1
  for (let node = branch + 1; node < (subtreeEnd[branch] ?? 0); node += 1) {
    const above = parent[node] ?? 0
    if (isIn[above] === 0) continue
    const ends = otherBranches.has(node) || nominalV[node] !== nominalV[branch]
    if (ends) endNodes.add(above)
    else isIn[node] = 1
  }
  const units = bank.settings.phases.map((phase) => PHASES.indexOf(phase))
  return {
    branch,
    isIn,
    endNodes: [...endNodes],
    firstSlots: units.flatMap((phase) => firstSlotOf(network, judge, isIn, phase)),
  }
}

function firstSlotOf(
  { distanceM }: Network,
  { watched }: LimitJudge,
  isIn: Uint8Array,
  phase: number,
): number[] {
  let first = -1
  for (const slot of watched) {
    const node = Math.floor(slot / 3)
    if (slot % 3 !== phase || isIn[node] === 0) continue
    const isNearer = (distanceM[node] ?? 0) < (distanceM[Math.floor(first / 3)] ?? 0)
    if (first < 0 || isNearer) first = slot
  }
  return first < 0 ? [] : [first]
}

/** Whether a load hangs anywhere behind the bank, past other banks too. */
export function isBehind(network: Network, branch: number, node: number): boolean {
  return node === branch || isBeyond(network, node, branch)
}
