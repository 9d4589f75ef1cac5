import type { Phase } from '#domain/units/phases.ts'

/**
 * Feeder compiled to flat arrays. Node 0 is the source; every other node i hangs on its parent by
 * branch i, and nodes stand depth first, so that node i's subtree is i … subtreeEnd[i] − 1.
 * A branch is a per-phase gain at its near end (transformer ratio times regulator), then a
 * series impedance with half of its charging at each end. Volts, amperes, ohms, siemens, radians.
 */
export interface Network {
  readonly nodeCount: number
  /** Pole id, or the id of a device with `:out` appended for the node behind it. */
  readonly nodeIds: readonly string[]
  readonly nodePoleIds: readonly string[]
  readonly parent: Int32Array
  readonly subtreeEnd: Int32Array
  /** Phases of branch i, bits 1, 2, 4 for A, B, C; node 0 has all. */
  readonly mask: Uint8Array
  /** Nominal line-to-neutral volts of node i. */
  readonly nominalV: Float64Array
  /** Along the line from the source, metres. */
  readonly distanceM: Float64Array
  /** Series impedance of branch i referred to its far end, 3 × 3 complex row-major, stride 18, ohms. */
  readonly zOhm: Float64Array
  /** Half of the branch's charging susceptance, 3 × 3 row-major, stride 9, siemens. */
  readonly halfB: Float64Array
  /** Turns ratio far over near voltage; 1 on a plain line. */
  readonly ratio: Float64Array
  /** 1 where the near end is the delta side of a delta–grounded wye transformer. */
  readonly isDelta: Uint8Array
  /** Index into `spanIds`; −1 for the impedance behind the source. */
  readonly branchSpan: Int32Array
  readonly spanIds: readonly string[]
  /** First and last branch of each span; −1 where the span has no power. */
  readonly spanFirstBranch: Int32Array
  readonly spanLastBranch: Int32Array
  /** Phase conductor's current limit by span, amperes; NaN where none is known. */
  readonly ampacityA: Float64Array
  readonly elements: LoadElements
  readonly regulators: readonly CompiledRegulator[]
  readonly source: CompiledSource
  /** Node of each pole that has power; poles without are absent. */
  readonly nodeOfPole: ReadonlyMap<string, number>
}

export interface CompiledSource {
  /** Per unit of nominal, by phase. */
  readonly voltagePu: readonly [number, number, number]
  readonly angleDeg: number
}

/** What decides the factor that a case puts on an element. */
export type ElementGroup =
  | { readonly kind: 'load'; readonly customerClass: string }
  | { readonly kind: 'generation' }
  | { readonly kind: 'capacitor' }

/** Loads, generators and capacitors, one entry per phase or phase pair, sorted by node. */
export interface LoadElements {
  readonly count: number
  readonly node: Int32Array
  readonly fromPhase: Uint8Array
  /** −1 for line to neutral. */
  readonly toPhase: Int8Array
  /** At nominal voltage and factor 1; positive is consumed. */
  readonly kw: Float64Array
  readonly kvar: Float64Array
  readonly constantPower: Float64Array
  readonly constantCurrent: Float64Array
  readonly constantImpedance: Float64Array
  /** Index into `groups`. */
  readonly group: Int32Array
  readonly groups: readonly ElementGroup[]
  /** Index into the feeder's loads; −1 for generators and capacitors. */
  readonly loadIndex: Int32Array
}

/** Settings of a regulator bank as its control sees them, on the 120 V base. */
export interface BankSettings {
  readonly windingType: 'A' | 'B'
  readonly phases: readonly Phase[]
  readonly ptRatio: number
  readonly ctPrimaryA: number
  readonly bandCentreV: number
  readonly bandwidthV: number
  readonly rV: number
  readonly xV: number
  readonly delayS: number
  readonly maxRaise: number
  readonly maxLower: number
}

export interface CompiledRegulator {
  readonly id: string
  readonly poleId: string
  readonly spanId: string
  readonly branch: number
  readonly settings: BankSettings
  /** Recorded positions of A, B, C. */
  readonly recordedTaps: readonly [number, number, number]
}
