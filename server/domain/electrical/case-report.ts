import { PHASES, type Phase } from '#domain/units/phases.ts'
import { volts120OfPu } from '#domain/units/voltage-base.ts'
import type { LoadCase } from '../feeder/header.ts'
import { branchPower, nearVoltage } from './branch-power.ts'
import type { RegulatorBank } from './regulator-bank.ts'
import { readBank } from './regulator-control.ts'
import type {
  ByPhase,
  NodeVoltage,
  PhaseVoltage,
  RegulatorState,
  SpanFlow,
  Totals,
} from './solution.ts'
import { groupFactor, type Sweep } from './sweep.ts'

/** Voltages of every node, and of the load side of every bank as `<bank id>:out`. */
export function nodeVoltages(sweep: Sweep): NodeVoltage[] {
  const { network } = sweep
  const nodes = network.nodeIds.map((id, i) =>
    nodeVoltage(
      sweep,
      i,
      id,
      network.nodePoleIds[i] ?? id,
      sweep.voltageV.subarray(i * 6, i * 6 + 6),
    ),
  )
  const outputs = sweep.banks.map((bank) => {
    const parent = network.parent[bank.branch] ?? 0
    const poleId = network.nodePoleIds[parent] ?? ''
    return nodeVoltage(
      sweep,
      parent,
      `${bank.id}:out`,
      poleId,
      nearVoltage(sweep, bank.branch),
      bank.branch,
    )
  })
  return [...nodes, ...outputs]
}

function nodeVoltage(
  { network }: Sweep,
  node: number,
  id: string,
  poleId: string,
  volts: Float64Array,
  maskOf = node,
): NodeVoltage {
  const nominalV = network.nominalV[node] ?? Number.NaN
  const phases: ByPhase<PhaseVoltage> = {}
  eachPhase(network.mask[maskOf] ?? 0, (phase, index) => {
    const re = volts[index * 2] ?? Number.NaN
    const im = volts[index * 2 + 1] ?? Number.NaN
    const pu = Math.hypot(re, im) / nominalV
    phases[phase] = { pu, angleDeg: degrees(re, im), volts120: volts120OfPu(pu) }
  })
  return { id, poleId, nominalV, distanceM: network.distanceM[node] ?? 0, phases }
}

/** Flow of every span that has power. */
export function spanFlows(sweep: Sweep): SpanFlow[] {
  const { network } = sweep
  return network.spanIds.flatMap((id, span) => {
    const first = network.spanFirstBranch[span] ?? -1
    return first < 0 ? [] : [spanFlow(sweep, id, span, first)]
  })
}

function spanFlow(sweep: Sweep, id: string, span: number, first: number): SpanFlow {
  const { network } = sweep
  const last = network.spanLastBranch[span] ?? first
  const head = branchPower(sweep, first)
  let lossW = head.lossW
  let lossVar = head.lossVar
  for (let branch = first + 1; branch <= last; branch++) {
    const inner = branchPower(sweep, branch)
    lossW += inner.lossW
    lossVar += inner.lossVar
  }
  const current: ByPhase<{ amps: number; angleDeg: number }> = {}
  let highestA = 0
  eachPhase(network.mask[first] ?? 0, (phase, index) => {
    const re = head.nearCurrentA[index * 2] ?? 0
    const im = head.nearCurrentA[index * 2 + 1] ?? 0
    const amps = Math.hypot(re, im)
    highestA = Math.max(highestA, amps)
    current[phase] = { amps, angleDeg: degrees(re, im) }
  })
  const ampacityA = network.ampacityA[span] ?? Number.NaN
  return {
    id,
    from: network.nodePoleIds[network.parent[first] ?? 0] ?? '',
    to: network.nodePoleIds[last] ?? '',
    current,
    loadingPct: Number.isNaN(ampacityA) ? null : (100 * highestA) / ampacityA,
    sendingKw: head.sendingW / 1000,
    sendingKvar: head.sendingVar / 1000,
    lossKw: lossW / 1000,
    lossKvar: lossVar / 1000,
  }
}

export function regulatorStates(sweep: Sweep): RegulatorState[] {
  return sweep.banks.map((bank) => regulatorState(sweep, bank))
}

function regulatorState(sweep: Sweep, bank: RegulatorBank): RegulatorState {
  const { network } = sweep
  const reading = readBank(sweep, bank)
  const { phases, bandCentreV, bandwidthV, maxRaise, maxLower } = bank.settings
  const byPhase = (values: ArrayLike<number>): ByPhase<number> =>
    Object.fromEntries(phases.map((phase) => [phase, values[PHASES.indexOf(phase)] ?? Number.NaN]))
  return {
    id: bank.id,
    poleId: network.nodePoleIds[network.parent[bank.branch] ?? 0] ?? '',
    spanId: network.spanIds[network.branchSpan[bank.branch] ?? -1] ?? '',
    taps: byPhase(bank.taps),
    outputVolts120: byPhase(reading.outputVolts120),
    relayVolts: byPhase(reading.relayVolts),
    currentA: byPhase(reading.currentA),
    atLimit: phases.filter((phase) => {
      const index = PHASES.indexOf(phase)
      const error = (reading.relayVolts[index] ?? bandCentreV) - bandCentreV
      const tap = bank.taps[index] ?? 0
      return error < -bandwidthV / 2 ? tap >= maxRaise : error > bandwidthV / 2 && tap <= -maxLower
    }),
  }
}

/** Input at the source, what loads and capacitors take at the solved voltages, and the difference. */
export function totals(sweep: Sweep, loadCase: LoadCase): Totals {
  const { network } = sweep
  const drawn = drawnPower(sweep, loadCase)
  let lossW = 0
  let lossVar = 0
  for (let branch = 1; branch < network.nodeCount; branch++) {
    const { lossW: w, lossVar: q } = branchPower(sweep, branch)
    lossW += w
    lossVar += q
  }
  return {
    inputKw: (drawn.w + lossW) / 1000,
    inputKvar: (drawn.vars + lossVar) / 1000,
    loadKw: drawn.w / 1000,
    loadKvar: drawn.vars / 1000,
    lossKw: lossW / 1000,
    lossKvar: lossVar / 1000,
  }
}

function drawnPower(sweep: Sweep, loadCase: LoadCase): { w: number; vars: number } {
  const { elements, nominalV } = sweep.network
  let w = 0
  let vars = 0
  for (let e = 0; e < elements.count; e++) {
    const node = elements.node[e] as number
    const toPhase = elements.toPhase[e] as number
    const group = elements.groups[elements.group[e] as number]
    const factor = group ? groupFactor(group, loadCase) : 0
    const ratedV = (nominalV[node] as number) * (toPhase < 0 ? 1 : Math.sqrt(3))
    const u = elementVoltage(sweep, node, elements.fromPhase[e] as number, toPhase) / ratedV
    const zip =
      (elements.constantPower[e] as number) +
      (elements.constantCurrent[e] as number) * u +
      (elements.constantImpedance[e] as number) * u * u
    w += (elements.kw[e] as number) * 1000 * factor * zip
    vars += (elements.kvar[e] as number) * 1000 * factor * zip
  }
  return { w, vars }
}

function elementVoltage({ voltageV }: Sweep, node: number, from: number, to: number): number {
  const at = node * 6
  const re = (voltageV[at + from * 2] as number) - (to < 0 ? 0 : (voltageV[at + to * 2] as number))
  const im =
    (voltageV[at + from * 2 + 1] as number) - (to < 0 ? 0 : (voltageV[at + to * 2 + 1] as number))
  return Math.hypot(re, im)
}

function eachPhase(mask: number, visit: (phase: Phase, index: number) => void): void {
  PHASES.forEach((phase, index) => {
    if ((mask >> index) & 1) visit(phase, index)
  })
}

function degrees(re: number, im: number): number {
  return (Math.atan2(im, re) * 180) / Math.PI
}
