import type { Feeder } from '../feeder/feeder.ts'
import type { Finding, LayerName } from '../feeder/finding.ts'

/** Makes a finding; its place is that of `pole`, or of the pole that is the feature. */
export type Report = (
  severity: Finding['severity'],
  code: string,
  layer: LayerName,
  featureId: string,
  what: string,
  remedy: string,
  pole?: string,
) => Finding

export function reporter(feeder: Feeder): Report {
  const places = new Map(feeder.poles.map((pole) => [pole.id, pole.at]))
  return (severity, code, layer, featureId, what, remedy, pole) => ({
    severity,
    code,
    layer,
    featureId,
    place: places.get(pole ?? featureId) ?? null,
    what,
    remedy,
  })
}
