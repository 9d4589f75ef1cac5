import type { NodeVoltage } from '#domain/electrical/solution.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import { isBypassed } from '#domain/feeder/is-bypassed.ts'
import type { Phase } from '#domain/units/phases.ts'
import type { TapRule } from '../state/address.ts'
import type { Converged } from '../state/case-solutions.ts'
import { listed } from '../state/format.ts'
import type { Working } from '../state/working.ts'

interface Computed {
  readonly feeder: Feeder
  readonly solution: Converged
  readonly node: NodeVoltage
  readonly phase: Phase
  readonly taps: TapRule
}

/** How the voltage of one phase at a pole came about. */
export function voltageWorking({ feeder, solution, node, phase, taps }: Computed): Working {
  const found = node.phases[phase]
  if (!found) throw new Error(`Expected phase ${phase} at ${node.id}.`)
  const caseName = feeder.header.cases.find(({ id }) => id === solution.caseId)?.name ?? ''
  return {
    title: `phase ${phase} at pole ${node.poleId}`,
    result: `${found.volts120.toFixed(2)} V on the 120 V base`,
    formula: [
      'V120 = 120 × |V| ÷ Vnominal',
      'V at the far end of each span = V at its near end − Z · I, for the three phases together',
    ],
    inputs: [
      { name: 'Voltage to neutral', value: `${(found.pu * node.nominalV).toFixed(0)} V` },
      { name: 'Nominal to neutral', value: `${node.nominalV.toFixed(0)} V` },
      { name: 'Per unit', value: found.pu.toFixed(4) },
      { name: 'Angle', value: `${found.angleDeg.toFixed(2)}°` },
      { name: 'Load case', value: caseName },
      { name: 'Regulators', value: regulatorWords(feeder, taps) },
      { name: 'Iterations', value: String(solution.iterations) },
    ],
    source:
      'Unbalanced forward and backward sweep with the mutual impedance of the phases; line impedance by the modified Carson equations and Kron reduction (W. H. Kersting, Distribution System Modeling and Analysis), or as published with the feeder.',
    sureness: 'computed',
    changeAt:
      'Loads and line types come with the layers of the feeder; case and regulators stand in the top bar.',
  }
}

function regulatorWords({ equipment }: Feeder, taps: TapRule): string {
  const held = taps === 'controlled' ? 'follow their controls' : 'as recorded'
  const bypassed = equipment.filter(isBypassed).map(({ pole }) => `pole ${pole}`)
  return bypassed.length === 0 ? held : `${held}; bypassed at ${listed(bypassed)}`
}
