import type { Network } from '#domain/electrical/network.ts'
import {
  add,
  type Complex,
  complex,
  conjugate,
  divide,
  magnitude,
  multiply,
  polar,
  scale,
  subtract,
} from '#domain/units/complex.ts'

/**
 * The same sweep in the plainest form: a tree of objects and a new complex number for every sum.
 * It is what the flat arrays are compared with, in time and in the answer. Wye loads and plain
 * lines only, which is all that the synthetic feeders have.
 */
export interface ObjectNode {
  readonly parent: ObjectNode | null
  readonly nominalV: number
  readonly phases: readonly number[]
  /** Ohms, 3 × 3; siemens of one end's charging, 3 × 3. */
  readonly z: Complex[][]
  readonly charging: Complex[][]
  readonly loads: ObjectLoad[]
  voltage: Complex[]
  current: Complex[]
}

interface ObjectLoad {
  readonly phase: number
  readonly va: Complex
  readonly constantPower: number
  readonly constantCurrent: number
  readonly constantImpedance: number
}

const ZERO = complex(0)
const THREE = [0, 1, 2]

/** Throws for parts that the plain form leaves out. */
export function objectTree(network: Network, loadFactor: number): ObjectNode[] {
  const nodes: ObjectNode[] = []
  for (let i = 0; i < network.nodeCount; i++) {
    if (network.ratio[i] !== 1) throw new Error('The plain sweep knows no transformers.')
    nodes.push({
      parent: nodes[network.parent[i]!] ?? null,
      nominalV: network.nominalV[i]!,
      phases: THREE.filter((phase) => (network.mask[i]! >> phase) & 1),
      z: THREE.map((row) =>
        THREE.map((column) => {
          const at = i * 18 + row * 6 + column * 2
          return complex(network.zOhm[at]!, network.zOhm[at + 1]!)
        }),
      ),
      charging: THREE.map((row) =>
        THREE.map((column) => complex(0, network.halfB[i * 9 + row * 3 + column]!)),
      ),
      loads: [],
      voltage: [],
      current: [],
    })
  }
  const { elements } = network
  for (let e = 0; e < elements.count; e++) {
    if (elements.toPhase[e] !== -1) throw new Error('The plain sweep knows no delta loads.')
    nodes[elements.node[e]!]!.loads.push({
      phase: elements.fromPhase[e]!,
      va: scale(complex(elements.kw[e]!, elements.kvar[e]!), 1000 * loadFactor),
      constantPower: elements.constantPower[e]!,
      constantCurrent: elements.constantCurrent[e]!,
      constantImpedance: elements.constantImpedance[e]!,
    })
  }
  return nodes
}

/** Sweeps from a flat start until no voltage moves by more than the tolerance; gives the iterations. */
export function sweepObjects(
  nodes: readonly ObjectNode[],
  sourcePu: number,
  tolerancePu: number,
): number {
  for (const node of nodes) {
    node.voltage = THREE.map((phase) =>
      node.phases.includes(phase) ? polar(node.nominalV * sourcePu, -120 * phase) : ZERO,
    )
  }
  for (let iteration = 1; iteration <= 100; iteration++) {
    drawAll(nodes)
    collectAll(nodes)
    if (carryAll(nodes) <= tolerancePu) return iteration
  }
  throw new Error('The plain sweep did not settle.')
}

function timesVector(matrix: readonly Complex[][], vector: readonly Complex[]): Complex[] {
  return matrix.map((row) =>
    row.reduce((sum, value, column) => add(sum, multiply(value, vector[column]!)), ZERO),
  )
}

function drawAll(nodes: readonly ObjectNode[]): void {
  for (const node of nodes) node.current = timesVector(node.charging, node.voltage)
  for (const { parent, charging } of nodes) {
    if (!parent) continue
    const near = timesVector(charging, parent.voltage)
    parent.current = parent.current.map((amps, phase) => add(amps, near[phase]!))
  }
  for (const node of nodes) {
    for (const load of node.loads) {
      const volts = node.voltage[load.phase]!
      const u = magnitude(volts) / node.nominalV
      const zip = load.constantPower + load.constantCurrent * u + load.constantImpedance * u * u
      const amps = conjugate(divide(scale(load.va, zip), volts))
      node.current[load.phase] = add(node.current[load.phase]!, amps)
    }
  }
}

function collectAll(nodes: readonly ObjectNode[]): void {
  for (const { parent, current } of nodes.toReversed()) {
    if (parent) parent.current = parent.current.map((amps, phase) => add(amps, current[phase]!))
  }
}

function carryAll(nodes: readonly ObjectNode[]): number {
  let worst = 0
  for (const node of nodes) {
    const { parent, z, current, nominalV, phases } = node
    if (!parent) continue
    const drop = timesVector(z, current)
    const next = THREE.map((phase) =>
      phases.includes(phase) ? subtract(parent.voltage[phase]!, drop[phase]!) : ZERO,
    )
    for (const phase of phases) {
      const change = magnitude(subtract(next[phase]!, node.voltage[phase]!)) / nominalV
      worst = Math.max(worst, change)
    }
    node.voltage = next
  }
  return worst
}
