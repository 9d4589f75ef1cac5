import { BASE_VOLTS120, lineToLineKv, lineToNeutralV } from '#domain/units/voltage-base.ts'
import type { Regulator, Transformer } from '../feeder/equipment.ts'
import type { Feeder } from '../feeder/feeder.ts'
import type { Finding } from '../feeder/finding.ts'
import { isBypassed } from '../feeder/is-bypassed.ts'
import type { Report } from './finding-reporter.ts'
import { nominalBefore, nominalVolts } from './nominal-volts.ts'
import type { FeederTrace } from './trace-feeder.ts'

/** A rating this far from the line's nominal voltage is taken for a slip (common practice, no source). */
const UNLIKELY_SHARE = 0.1

/** Transformers and regulators whose recorded voltages do not suit the line on which they sit. */
export function checkVoltages(feeder: Feeder, trace: FeederTrace, report: Report): Finding[] {
  const nominalV = nominalVolts(feeder, trace)
  return trace.spans.flatMap(({ parent, devices }) => {
    let arrivingV = nominalBefore(feeder, nominalV, parent)
    return devices.flatMap((device) => {
      if (device.kind === 'regulator') return regulatorFindings(device, arrivingV, report)
      if (device.kind !== 'transformer') return []
      const findings = transformerFindings(device, arrivingV, report)
      if (device.lowKv !== undefined) arrivingV = lineToNeutralV(device.lowKv)
      return findings
    })
  })
}

function transformerFindings(device: Transformer, arrivingV: number, report: Report): Finding[] {
  const { id, pole, highKv } = device
  if (highKv === undefined || suits(lineToNeutralV(highKv), arrivingV)) return []
  return [
    report(
      'warning',
      'transformer-voltage-unlikely',
      'equipment',
      id,
      `Its high side is rated ${highKv} kV, but the line before it is at ${lineKvInWords(arrivingV)} kV.`,
      'Correct high_kv, or the nominal voltage of the line.',
      pole,
    ),
  ]
}

function regulatorFindings(device: Regulator, arrivingV: number, report: Report): Finding[] {
  const { id, pole, ptRatio } = device
  if (isBypassed(device) || suits(ptRatio * BASE_VOLTS120, arrivingV)) return []
  const expected = (arrivingV / BASE_VOLTS120).toFixed(1)
  return [
    report(
      'warning',
      'pt-ratio-unlikely',
      'equipment',
      id,
      `Its pt_ratio is ${ptRatio}; on a line of ${lineKvInWords(arrivingV)} kV about ${expected} gives the control its 120 V.`,
      'Correct pt_ratio, or its band is held on another voltage than meant.',
      pole,
    ),
  ]
}

function suits(ratedV: number, arrivingV: number): boolean {
  return Math.abs(ratedV / arrivingV - 1) <= UNLIKELY_SHARE
}

function lineKvInWords(neutralV: number): string {
  return lineToLineKv(neutralV).toFixed(2)
}
