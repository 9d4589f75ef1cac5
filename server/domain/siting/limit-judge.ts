import type { Network } from '#domain/electrical/network.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import type { VoltageLimits } from '#domain/feeder/header.ts'
import { PHASES, type Phase, phasesOfMask } from '#domain/units/phases.ts'
import { BASE_VOLTS120 } from '#domain/units/voltage-base.ts'

/** A voltage this close to a limit, per unit, is on it. */
const ON_LIMIT_PU = 1e-9

/** Lists that say where to look in the voltages of a network; one slot is node × 3 + phase. */
export interface LimitJudge {
  readonly network: Network
  readonly lowPu: number
  readonly highPu: number
  /** Slots of poles, then slots of points in between, which only loads look at. */
  readonly slots: Int32Array
  readonly poleSlotCount: number
  /** Loads in the order of their first node: slots of load i are `watched[watchStart[i]…watchStart[i + 1]]`. */
  readonly watchStart: Int32Array
  readonly watched: Int32Array
  readonly loadNode: Int32Array
  /** Customers of each load; 1 each where the feeder records no customers. */
  readonly weight: Int32Array
  readonly countsCustomers: boolean
}

/** What the judge found in one case. */
export interface LimitVerdict {
  readonly outside: number
  readonly lowestPu: number
  readonly lowestSlot: number
  readonly highestPu: number
  readonly highestSlot: number
}

interface Watch {
  readonly node: number
  readonly slots: readonly number[]
  readonly weight: number
}

/**
 * A customer is outside when any phase of its load is: a single-phase load on its phase, a
 * three-phase load on any of the three, a load along a span at either point that stands for it.
 */
export function compileJudge(feeder: Feeder, network: Network, limits: VoltageLimits): LimitJudge {
  const countsCustomers = feeder.loads.some((load) => load.customers > 0)
  const watches = watchesOf(feeder, network, countsCustomers)
  const starts = [0]
  for (const watch of watches) starts.push((starts.at(-1) ?? 0) + watch.slots.length)
  const isPole = (node: number) => network.nodeIds[node] === network.nodePoleIds[node]
  const nodes = Array.from({ length: network.nodeCount }, (_, node) => node)
  const poleSlots = nodes.filter(isPole).flatMap((node) => slotsOf(network, node))
  const betweenSlots = nodes
    .filter((node) => !isPole(node))
    .flatMap((node) => slotsOf(network, node))
  return {
    network,
    lowPu: limits.lowVolts120 / BASE_VOLTS120,
    highPu: limits.highVolts120 / BASE_VOLTS120,
    slots: Int32Array.from([...poleSlots, ...betweenSlots]),
    poleSlotCount: poleSlots.length,
    watchStart: Int32Array.from(starts),
    watched: Int32Array.from(watches.flatMap((watch) => watch.slots)),
    loadNode: Int32Array.from(watches, (watch) => watch.node),
    weight: Int32Array.from(watches, (watch) => watch.weight),
    countsCustomers,
  }
}

function slotsOf(network: Network, node: number): number[] {
  return phasesOfMask(network.mask[node] ?? 0).map((phase) => node * 3 + PHASES.indexOf(phase))
}

function watchesOf(feeder: Feeder, network: Network, countsCustomers: boolean): Watch[] {
  const slotsOfLoad = feeder.loads.map(() => new Set<number>())
  const { count, node, fromPhase, toPhase, loadIndex } = network.elements
  for (let i = 0; i < count; i += 1) {
    const slots = slotsOfLoad[loadIndex[i] ?? -1]
    const first = (node[i] ?? 0) * 3
    slots?.add(first + (fromPhase[i] ?? 0))
    if ((toPhase[i] ?? -1) >= 0) slots?.add(first + (toPhase[i] ?? 0))
  }
  return feeder.loads
    .flatMap((load, index) => {
      const weight = countsCustomers ? load.customers : 1
      const drawn = [...(slotsOfLoad[index] ?? [])]
      const at = network.nodeOfPole.get(load.pole ?? '')
      const slots = drawn.length > 0 || at === undefined ? drawn : slotsOf(network, at)
      const first = Math.floor(Math.min(...slots) / 3)
      return weight > 0 && slots.length > 0 ? [{ node: first, slots, weight }] : []
    })
    .sort((a, b) => a.node - b.node)
}

/**
 * Per unit voltage of every slot.
 *
 * @param voltages Complex node voltages, stride 6, volts.
 * @param pu Filled at the judge's slots; 3 per node.
 */
export function fillPu(judge: LimitJudge, voltages: Float64Array, pu: Float64Array): void {
  const { slots } = judge
  const { nominalV } = judge.network
  for (let i = 0; i < slots.length; i += 1) {
    const slot = slots[i] as number
    const re = voltages[2 * slot] as number
    const im = voltages[2 * slot + 1] as number
    pu[slot] = Math.sqrt(re * re + im * im) / (nominalV[(slot / 3) | 0] as number)
  }
}

/** Counts customers outside and finds the lowest and highest pole. */
export function judgeLimits(judge: LimitJudge, pu: Float64Array): LimitVerdict {
  let lowestSlot = -1
  let highestSlot = -1
  let lowestPu = Number.POSITIVE_INFINITY
  let highestPu = Number.NEGATIVE_INFINITY
  for (let i = 0; i < judge.poleSlotCount; i += 1) {
    const slot = judge.slots[i] as number
    const value = pu[slot] as number
    if (value < lowestPu) {
      lowestPu = value
      lowestSlot = slot
    }
    if (value > highestPu) {
      highestPu = value
      highestSlot = slot
    }
  }
  return { outside: countOutside(judge, pu), lowestPu, lowestSlot, highestPu, highestSlot }
}

/** How far the highest voltage stands above the limit, per unit; 0 when it does not. */
export function overHigh(highestPu: number, highPu: number): number {
  const overPu = highestPu - highPu
  return overPu > ON_LIMIT_PU ? overPu : 0
}

function countOutside(judge: LimitJudge, pu: Float64Array): number {
  const low = judge.lowPu - ON_LIMIT_PU
  const high = judge.highPu + ON_LIMIT_PU
  const { watchStart, watched, weight } = judge
  let outside = 0
  for (let load = 0; load < weight.length; load += 1) {
    const end = watchStart[load + 1] as number
    for (let i = watchStart[load] as number; i < end; i += 1) {
      const value = pu[watched[i] as number] as number
      if (value >= low && value <= high) continue
      outside += weight[load] as number
      break
    }
  }
  return outside
}

/** Pole and phase of a slot. */
export function placeOfSlot(network: Network, slot: number): { node: string; phase: Phase } {
  const phase = PHASES[slot % 3]
  const node = network.nodeIds[Math.floor(slot / 3)]
  if (phase === undefined || node === undefined)
    throw new Error(`Expected a node and phase, got slot ${slot}.`)
  return { node, phase }
}
