import type { NodeVoltage } from '#domain/electrical/solution.ts'
import type { Phase } from '#domain/units/phases.ts'

export interface Extreme {
  readonly volts120: number
  readonly node: string
  readonly phase: Phase
  /** Every node-phase, volts on the 120 base. */
  readonly all: readonly number[]
}

interface NodePhase {
  readonly node: string
  readonly phase: Phase
  readonly volts120: number
}

/** Throws for a solution without a node; a solved feeder has its source at least. */
export function lowestOf(nodes: readonly NodeVoltage[]): Extreme {
  return extreme(nodes, (a, b) => a.volts120 < b.volts120)
}

export function highestOf(nodes: readonly NodeVoltage[]): Extreme {
  return extreme(nodes, (a, b) => a.volts120 > b.volts120)
}

function extreme(
  nodes: readonly NodeVoltage[],
  isBeyond: (a: NodePhase, b: NodePhase) => boolean,
): Extreme {
  const each = nodes.flatMap(({ id, phases }) =>
    Object.entries(phases).map(([phase, { volts120 }]) => ({
      node: id,
      phase: phase as Phase,
      volts120,
    })),
  )
  const [first, ...rest] = each
  if (!first) throw new Error('Expected at least one node, got none.')
  const found = rest.reduce((best, next) => (isBeyond(next, best) ? next : best), first)
  return { ...found, all: each.map(({ volts120 }) => volts120) }
}
