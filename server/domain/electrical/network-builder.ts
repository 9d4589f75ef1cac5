import type { PhaseMask } from '#domain/units/phases.ts'
import type { CompiledRegulator, CompiledSource, LoadElements, Network } from './network.ts'

export interface BranchInput {
  readonly parent: number
  readonly id: string
  readonly poleId: string
  readonly mask: PhaseMask
  readonly nominalV: number
  readonly distanceM?: number
  /** 3 × 3 complex, ohms; none for a jumper. */
  readonly z?: Float64Array | undefined
  readonly halfB?: Float64Array | undefined
  readonly ratio?: number
  readonly isDelta?: boolean
}

/** Collects branches in depth-first order and hands them over as flat arrays. */
export class NetworkBuilder {
  readonly #spanIds: readonly string[]
  readonly #spanIndex: ReadonlyMap<string, number>
  readonly #branches: BranchInput[] = []
  readonly #branchSpan: number[] = []
  readonly #poleNode = new Map<string, number>()
  readonly #quarterNode = new Map<string, number>()
  readonly #spanFirst: Int32Array
  readonly #spanLast: Int32Array
  readonly #ampacityA: Float64Array
  #span = -1

  constructor(spanIds: readonly string[]) {
    this.#spanIds = spanIds
    this.#spanIndex = new Map(spanIds.map((id, index) => [id, index]))
    this.#spanFirst = new Int32Array(spanIds.length).fill(-1)
    this.#spanLast = new Int32Array(spanIds.length).fill(-1)
    this.#ampacityA = new Float64Array(spanIds.length).fill(Number.NaN)
  }

  addRoot(id: string, poleId: string, nominalV: number): number {
    this.#branches.push({ parent: -1, id, poleId, mask: 7, nominalV, distanceM: 0 })
    this.#branchSpan.push(-1)
    this.#poleNode.set(poleId, 0)
    return 0
  }

  beginSpan(spanId: string, ampacityA: number): void {
    this.#span = this.#spanIndex.get(spanId) ?? -1
    this.#ampacityA[this.#span] = ampacityA
  }

  addBranch(branch: BranchInput): number {
    const index = this.#branches.length
    this.#branches.push(branch)
    this.#branchSpan.push(this.#span)
    if (this.#span < 0) this.#poleNode.set(branch.poleId, index)
    else {
      if (this.#spanFirst[this.#span] === -1) this.#spanFirst[this.#span] = index
      this.#spanLast[this.#span] = index
    }
    return index
  }

  /** Index that the next branch will get. */
  nextBranch(): number {
    return this.#branches.length
  }

  placePole(poleId: string, node: number): void {
    this.#poleNode.set(poleId, node)
  }

  placeQuarter(spanId: string, node: number): void {
    this.#quarterNode.set(spanId, node)
  }

  /** Throws for a pole without power: the trace only names poles that have it. */
  nodeOfPole(poleId: string): number {
    const node = this.#poleNode.get(poleId)
    if (node === undefined) throw new Error(`Pole "${poleId}" is not fed.`)
    return node
  }

  findPole(poleId: string): number {
    return this.#poleNode.get(poleId) ?? -1
  }

  /** Quarter point and far end of a span with a spread load; null where the span has no power. */
  spreadNodes(spanId: string): { quarter: number; end: number } | null {
    const end = this.#spanLast[this.#spanIndex.get(spanId) ?? -1] ?? -1
    return end < 0 ? null : { quarter: this.#quarterNode.get(spanId) ?? end, end }
  }

  maskOf(node: number): PhaseMask {
    return this.#at(node).mask
  }

  nominalV(node: number): number {
    return this.#at(node).nominalV
  }

  distanceM(node: number): number {
    return this.#at(node).distanceM ?? 0
  }

  #at(node: number): BranchInput {
    const branch = this.#branches[node]
    if (!branch) throw new Error(`No node ${node}.`)
    return branch
  }

  finish(
    elements: LoadElements,
    regulators: readonly CompiledRegulator[],
    source: CompiledSource,
  ): Network {
    const branches = this.#branches
    const count = branches.length
    const zOhm = new Float64Array(count * 18)
    const halfB = new Float64Array(count * 9)
    branches.forEach((branch, i) => {
      if (branch.z) zOhm.set(branch.z, i * 18)
      if (branch.halfB) halfB.set(branch.halfB, i * 9)
    })
    const parent = Int32Array.from(branches, (branch) => branch.parent)
    return {
      nodeCount: count,
      nodeIds: branches.map(({ id }) => id),
      nodePoleIds: branches.map(({ poleId }) => poleId),
      parent,
      subtreeEnd: subtreeEnds(parent),
      mask: Uint8Array.from(branches, ({ mask }) => mask),
      nominalV: Float64Array.from(branches, ({ nominalV }) => nominalV),
      distanceM: Float64Array.from(branches, ({ distanceM }) => distanceM ?? 0),
      zOhm,
      halfB,
      ratio: Float64Array.from(branches, ({ ratio }) => ratio ?? 1),
      isDelta: Uint8Array.from(branches, ({ isDelta }) => (isDelta ? 1 : 0)),
      branchSpan: Int32Array.from(this.#branchSpan),
      spanIds: this.#spanIds,
      spanFirstBranch: this.#spanFirst,
      spanLastBranch: this.#spanLast,
      ampacityA: this.#ampacityA,
      elements,
      regulators,
      source,
      nodeOfPole: this.#poleNode,
    }
  }
}

function subtreeEnds(parent: Int32Array): Int32Array {
  const ends = new Int32Array(parent.length)
  for (let i = parent.length - 1; i >= 0; i--) {
    ends[i] = Math.max(ends[i] ?? 0, i + 1)
    const up = parent[i] ?? -1
    if (up >= 0) ends[up] = Math.max(ends[up] ?? 0, ends[i] ?? 0)
  }
  return ends
}
