import type { RegulatorBank } from '#domain/electrical/regulator-bank.ts'
import type { Sweep } from '#domain/electrical/sweep.ts'
import { type Complex, complex, scale } from '#domain/units/complex.ts'
import { PHASES, type Phase } from '#domain/units/phases.ts'
import type { PhaseReading } from './equivalent-impedance.ts'

/** Volts and current of each of the bank's phases that reaches the load centre, as solved last. */
export function readPhases(
  sweep: Sweep,
  bank: RegulatorBank,
  centre: number,
): ReadonlyMap<Phase, PhaseReading> {
  const { network, state } = sweep
  const parent = network.parent[bank.branch] ?? 0
  const readings = new Map<Phase, PhaseReading>()
  for (const phase of bank.settings.phases) {
    const index = PHASES.indexOf(phase)
    if ((((network.mask[centre] ?? 0) >> index) & 1) === 0) continue
    const gain = state.gain[bank.branch * 3 + index] ?? 1
    readings.set(phase, {
      bankV: scale(at(sweep.voltageV, parent, index), gain),
      centreV: at(sweep.voltageV, centre, index),
      lineA: at(sweep.currentA, bank.branch, index),
    })
  }
  return readings
}

function at(values: Float64Array, node: number, phase: number): Complex {
  const slot = node * 6 + phase * 2
  return complex(values[slot] ?? 0, values[slot + 1] ?? 0)
}
