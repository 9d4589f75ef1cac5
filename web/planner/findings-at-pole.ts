import type { Finding } from '#domain/feeder/finding.ts'
import type { FeederModel } from '../state/feeder-model.ts'

/** Findings that name the pole, something on it, or a span that meets it. */
export function findingsAtPole(
  { feeder, equipmentAt, loadsAt }: FeederModel,
  findings: readonly Finding[],
  pole: string,
): Finding[] {
  const spans = feeder.spans.filter(({ from, to }) => from === pole || to === pole)
  const own: Partial<Record<Finding['layer'], ReadonlySet<string>>> = {
    poles: new Set([pole]),
    spans: new Set(spans.map(({ id }) => id)),
    equipment: new Set(equipmentAt.get(pole)?.map(({ id }) => id)),
    loads: new Set(loadsAt.get(pole)?.map(({ id }) => id)),
  }
  return findings.filter(({ layer, featureId }) => own[layer]?.has(featureId ?? ''))
}

/** Pole where a finding can be looked at; null where it names nothing that stands on one. */
export function poleOfFinding(
  { feeder, poleById, spanById }: FeederModel,
  { layer, featureId }: Finding,
): string | null {
  if (featureId === null) return null
  if (layer === 'poles') return poleById.has(featureId) ? featureId : null
  if (layer === 'spans') return spanById.get(featureId)?.from ?? null
  if (layer === 'equipment') {
    return feeder.equipment.find(({ id }) => id === featureId)?.pole ?? null
  }
  if (layer !== 'loads') return null
  const load = feeder.loads.find(({ id }) => id === featureId)
  return load?.pole ?? spanById.get(load?.span ?? '')?.from ?? null
}
