import type { NodeVoltage, SpanFlow } from '#domain/electrical/solution.ts'
import { PHASES } from '#domain/units/phases.ts'

/** The voltages of a node per unit and in kilovolts to neutral: "A 1.004 pu, 14.46 kV; …". */
export function voltsInUnits({ phases, nominalV }: NodeVoltage): string {
  return PHASES.flatMap((phase) => {
    const pu = phases[phase]?.pu
    if (pu === undefined) return []
    return [`${phase} ${pu.toFixed(4)} pu, ${((pu * nominalV) / 1000).toFixed(2)} kV`]
  }).join('; ')
}

/** The current of a span: "A 76 A, B 70 A, C 81 A; 45 % of what its conductor may carry". */
export function currentInWords({ current, loadingPct }: SpanFlow): string {
  const amps = PHASES.flatMap((phase) => {
    const found = current[phase]
    return found ? [`${phase} ${found.amps.toFixed(found.amps < 10 ? 1 : 0)} A`] : []
  })
  const share =
    loadingPct === null ? '' : `; ${loadingPct.toFixed(0)} % of what its conductor may carry`
  return `${amps.join(', ')}${share}`
}
