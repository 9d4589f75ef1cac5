import type { Regulator, Switch, Transformer } from '../feeder/equipment.ts'
import type { Feeder } from '../feeder/feeder.ts'
import { isBypassed } from '../feeder/is-bypassed.ts'
import type { Span } from '../feeder/span.ts'

export type SeriesEquipment = Regulator | Transformer | Switch

/** Series devices by the span on whose near end they sit, in the order of the file. */
export function seriesEquipmentBySpan(feeder: Feeder): Map<string, SeriesEquipment[]> {
  const bySpan = new Map<string, SeriesEquipment[]>()
  for (const item of feeder.equipment) {
    if (!('span' in item) || item.span === undefined) continue
    const devices = bySpan.get(item.span)
    if (devices) devices.push(item)
    else bySpan.set(item.span, [item])
  }
  return bySpan
}

export function isOpen(span: Span, devices: readonly SeriesEquipment[]): boolean {
  return (
    span.isNormallyOpen || devices.some((device) => 'state' in device && device.state === 'open')
  )
}

/** False for what the line runs straight through: a closed switch, a bank that stands bypassed. */
export function changesVoltage(device: SeriesEquipment): device is Regulator | Transformer {
  if (device.kind === 'regulator') return !isBypassed(device)
  return device.kind === 'transformer'
}
