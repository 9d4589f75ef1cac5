import type { LoadCase } from '../feeder/header.ts'
import type { ElementGroup, Network } from './network.ts'
import { type RegulatorBank, tapGain } from './regulator-bank.ts'
import {
  DELTA,
  GAIN,
  PLAIN,
  runSweep,
  type SweepLimits,
  type SweepOutcome,
  type SweepState,
} from './sweep-kernel.ts'

export const DEFAULT_LIMITS: SweepLimits = { tolerancePu: 1e-9, maxIterations: 200 }

const SQRT3 = Math.sqrt(3)

/**
 * Workspace of the forward/backward sweep on one network: all arrays are made here once, and a run
 * starts from whatever voltages the last one left (a warm start). Not shareable between threads.
 */
export class Sweep {
  readonly network: Network
  readonly state: SweepState
  #banks: readonly RegulatorBank[] = []
  #sourcePu: readonly [number, number, number]

  constructor(network: Network) {
    this.network = network
    this.state = emptyState(network)
    this.#sourcePu = network.source.voltagePu
    for (let i = 0; i < network.nodeCount; i++) this.#resetGain(i)
  }

  /** Volts to ground, shape (nodes × 3 phases × 2), stride 6: re, im of A, B, C; absent phases hold 0. */
  get voltageV(): Float64Array {
    return this.state.voltageV
  }

  /** Series current of the branch into each node, amperes, same shape; of the far side of its gain. */
  get currentA(): Float64Array {
    return this.state.currentA
  }

  get banks(): readonly RegulatorBank[] {
    return this.#banks
  }

  /** Puts the case's factors on the loads; voltages stay as they are. */
  setCase(loadCase: LoadCase): void {
    this.#sourcePu = loadCase.sourceVoltagePu
      ? [loadCase.sourceVoltagePu, loadCase.sourceVoltagePu, loadCase.sourceVoltagePu]
      : this.network.source.voltagePu
    this.#setSource()
    scaleElements(this.state, this.network, loadCase)
  }

  /** Replaces the banks in service; `applyTaps` afterwards whenever positions change. */
  setBanks(banks: readonly RegulatorBank[]): void {
    for (const bank of this.#banks) this.#resetGain(bank.branch)
    this.#banks = banks
    for (const bank of banks) this.applyTaps(bank)
  }

  /** Carries a bank's positions into the network and scales the voltages behind it to match. */
  applyTaps(bank: RegulatorBank): void {
    const { branch, settings, taps } = bank
    const { ratio, isDelta } = this.network
    if (isDelta[branch])
      throw new Error(`Bank "${bank.id}" cannot share a branch with a delta transformer.`)
    this.state.kind[branch] = GAIN
    this.state.isBank[branch] = 1
    for (let phase = 0; phase < 3; phase++) {
      const isFitted = settings.phases.includes('ABC'[phase] as 'A' | 'B' | 'C')
      const gain =
        (ratio[branch] ?? 1) * (isFitted ? tapGain(settings.windingType, taps[phase] ?? 0) : 1)
      this.#setGain(branch, phase, gain)
    }
  }

  /** Source voltage carried through every gain, without current: the cold start. */
  startFlat(): void {
    this.#setSource()
    const { voltageV, gain, kind } = this.state
    const { parent, mask, ratio } = this.network
    for (let i = 1; i < this.network.nodeCount; i++) {
      const from = (parent[i] as number) * 6
      for (let phase = 0; phase < 3; phase++) {
        const isThere = ((mask[i] as number) >> phase) & 1
        const at = i * 6 + phase * 2
        // Low side of a delta–grounded wye: a from A − C, b from B − A, c from C − B.
        const other = kind[i] === DELTA ? from + ((phase + 2) % 3) * 2 : -1
        const factor = kind[i] === DELTA ? (ratio[i] as number) : (gain[i * 3 + phase] as number)
        for (let part = 0; part < 2; part++) {
          const near = voltageV[from + phase * 2 + part] as number
          const value = other < 0 ? near : near - (voltageV[other + part] as number)
          voltageV[at + part] = isThere ? factor * value : 0
        }
      }
    }
  }

  run(limits: SweepLimits = DEFAULT_LIMITS): SweepOutcome {
    return runSweep(this.network, this.state, limits)
  }

  #resetGain(branch: number): void {
    const ratio = this.network.ratio[branch] ?? 1
    const isDelta = this.network.isDelta[branch] === 1
    this.state.isBank[branch] = 0
    this.state.kind[branch] = isDelta ? DELTA : ratio === 1 ? PLAIN : GAIN
    for (let phase = 0; phase < 3; phase++) this.#setGain(branch, phase, ratio)
  }

  #setGain(branch: number, phase: number, gain: number): void {
    const { gain: gains, voltageV } = this.state
    const before = gains[branch * 3 + phase] as number
    gains[branch * 3 + phase] = gain
    if (before === gain || before === 0) return
    const factor = gain / before
    const end = this.network.subtreeEnd[branch] as number
    for (let i = branch; i < end; i++) {
      voltageV[i * 6 + phase * 2] = (voltageV[i * 6 + phase * 2] as number) * factor
      voltageV[i * 6 + phase * 2 + 1] = (voltageV[i * 6 + phase * 2 + 1] as number) * factor
    }
  }

  #setSource(): void {
    const { nominalV, source } = this.network
    for (let phase = 0; phase < 3; phase++) {
      const angle = ((source.angleDeg - 120 * phase) * Math.PI) / 180
      const size = (nominalV[0] as number) * (this.#sourcePu[phase] as number)
      this.state.voltageV[phase * 2] = size * Math.cos(angle)
      this.state.voltageV[phase * 2 + 1] = size * Math.sin(angle)
    }
  }
}

function emptyState(network: Network): SweepState {
  const { nodeCount, elements } = network
  return {
    voltageV: new Float64Array(nodeCount * 6),
    currentA: new Float64Array(nodeCount * 6),
    gain: new Float64Array(nodeCount * 3),
    kind: new Uint8Array(nodeCount),
    isBank: new Uint8Array(nodeCount),
    shunt: new Float64Array(nodeCount * 18),
    hasShunt: new Uint8Array(nodeCount),
    drawCount: 0,
    drawNode: new Int32Array(elements.count),
    drawFrom: new Uint8Array(elements.count),
    drawTo: new Int8Array(elements.count),
    drawW: new Float64Array(elements.count),
    drawVar: new Float64Array(elements.count),
    drawPowerShare: new Float64Array(elements.count),
    drawCurrentPerV: new Float64Array(elements.count),
  }
}

export function groupFactor(group: ElementGroup, loadCase: LoadCase): number {
  if (group.kind === 'capacitor') return 1
  if (group.kind === 'generation') return loadCase.generationFactor
  return loadCase.classFactors[group.customerClass] ?? loadCase.loadFactor
}

/** Constant-impedance parts and line charging become node shunts; the rest is drawn in each iteration. */
function scaleElements(state: SweepState, network: Network, loadCase: LoadCase): void {
  const { elements, nominalV } = network
  const factors = elements.groups.map((group) => groupFactor(group, loadCase))
  state.shunt.fill(0)
  addCharging(state.shunt, network)
  state.drawCount = 0
  for (let e = 0; e < elements.count; e++) {
    const factor = factors[elements.group[e] as number] as number
    const watts = (elements.kw[e] as number) * 1000 * factor
    const vars = (elements.kvar[e] as number) * 1000 * factor
    if (watts === 0 && vars === 0) continue
    const node = elements.node[e] as number
    const toPhase = elements.toPhase[e] as number
    const ratedV = (nominalV[node] as number) * (toPhase < 0 ? 1 : SQRT3)
    const impedanceShare = elements.constantImpedance[e] as number
    if (impedanceShare > 0) {
      const perV2 = impedanceShare / (ratedV * ratedV)
      addAdmittance(
        state.shunt,
        node * 18,
        elements.fromPhase[e] as number,
        toPhase,
        watts * perV2,
        -vars * perV2,
      )
    }
    if (impedanceShare >= 1) continue
    const at = state.drawCount++
    state.drawNode[at] = node
    state.drawFrom[at] = elements.fromPhase[e] as number
    state.drawTo[at] = toPhase
    state.drawW[at] = watts
    state.drawVar[at] = vars
    state.drawPowerShare[at] = elements.constantPower[e] as number
    state.drawCurrentPerV[at] = (elements.constantCurrent[e] as number) / ratedV
  }
  for (let i = 0; i < network.nodeCount; i++) {
    state.hasShunt[i] = state.shunt.subarray(i * 18, i * 18 + 18).some((value) => value !== 0)
      ? 1
      : 0
  }
}

/** Half of each branch's charging at its far node and half at its near node. */
function addCharging(shunt: Float64Array, { nodeCount, parent, halfB }: Network): void {
  for (let i = 1; i < nodeCount; i++) {
    const near = (parent[i] as number) * 18
    for (let k = 0; k < 9; k++) {
      const b = halfB[i * 9 + k] as number
      if (b === 0) continue
      shunt[i * 18 + k * 2 + 1] = (shunt[i * 18 + k * 2 + 1] as number) + b
      shunt[near + k * 2 + 1] = (shunt[near + k * 2 + 1] as number) + b
    }
  }
}

function addAdmittance(
  shunt: Float64Array,
  base: number,
  from: number,
  to: number,
  g: number,
  b: number,
): void {
  const add = (row: number, column: number, sign: number): void => {
    const at = base + row * 6 + column * 2
    shunt[at] = (shunt[at] as number) + sign * g
    shunt[at + 1] = (shunt[at + 1] as number) + sign * b
  }
  add(from, from, 1)
  if (to < 0) return
  add(to, to, 1)
  add(from, to, -1)
  add(to, from, -1)
}
