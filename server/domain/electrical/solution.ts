import type { Phase } from '#domain/units/phases.ts'
import type { Finding } from '../feeder/finding.ts'

/** A figure for each phase that is there; phases that are absent have no key. */
export type ByPhase<Value> = Partial<Record<Phase, Value>>

export interface PhaseVoltage {
  /** Per unit of the node's own nominal line-to-neutral voltage. */
  readonly pu: number
  readonly angleDeg: number
  readonly volts120: number
}

export interface NodeVoltage {
  /**
   * Pole id; `<device id>:out` for the load side of a series device; `<span id>:quarter` for the
   * point of a span at which most of a load spread along it is taken to stand.
   */
  readonly id: string
  /** Pole that the node stands on. */
  readonly poleId: string
  readonly nominalV: number
  /** Along the line from the source, metres. */
  readonly distanceM: number
  readonly phases: ByPhase<PhaseVoltage>
}

export interface SpanFlow {
  readonly id: string
  readonly from: string
  readonly to: string
  /** At the near end, after series equipment; positive away from the source. */
  readonly current: ByPhase<{ readonly amps: number; readonly angleDeg: number }>
  /** Largest phase current over the line type's current limit, percent; null where none is known. */
  readonly loadingPct: number | null
  readonly sendingKw: number
  readonly sendingKvar: number
  /** Includes series transformers on the span. */
  readonly lossKw: number
  readonly lossKvar: number
}

export interface RegulatorState {
  readonly id: string
  readonly poleId: string
  readonly spanId: string
  readonly taps: ByPhase<number>
  /** Load-side voltage on the 120 V base. */
  readonly outputVolts120: ByPhase<number>
  /** What the control sees after line-drop compensation, volts on the 120 base. */
  readonly relayVolts: ByPhase<number>
  readonly currentA: ByPhase<number>
  /** Phases whose control wants to go further than the range allows. */
  readonly atLimit: readonly Phase[]
}

export interface Totals {
  readonly inputKw: number
  readonly inputKvar: number
  /** Consumed by loads, generation deducted, capacitors included in kvar. */
  readonly loadKw: number
  readonly loadKvar: number
  readonly lossKw: number
  readonly lossKvar: number
}

export type NotConvergedReason = 'voltage-collapse' | 'iteration-limit' | 'tap-hunting'

/** The answer of one case. Not converging is an answer too, never a number. */
export type CaseSolution =
  | {
      readonly status: 'converged'
      readonly caseId: string
      readonly iterations: number
      readonly nodes: readonly NodeVoltage[]
      readonly spans: readonly SpanFlow[]
      readonly regulators: readonly RegulatorState[]
      readonly totals: Totals
    }
  | {
      readonly status: 'not-converged'
      readonly caseId: string
      readonly iterations: number
      readonly reason: NotConvergedReason
      readonly worstNodeId: string
      readonly what: string
    }
  | { readonly status: 'rejected'; readonly findings: readonly Finding[] }
