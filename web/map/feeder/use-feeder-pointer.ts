import type { LngLat, MapGeoJSONFeature } from 'maplibre-gl'
import type { Position } from '#domain/feeder/geometry.ts'
import { type OpenFeeder, useFeeder } from '../../state/feeder.tsx'
import { hoverPole } from '../../state/hover.ts'
import { select } from '../../state/selection.ts'
import { useMapClicks } from '../map-clicks.tsx'

const LAYERS = [
  'feeder-equipment-main',
  'feeder-equipment',
  'feeder-pole-arms',
  'feeder-poles',
  'feeder-spans',
  'feeder-open-spans',
] as const

/** Pole that a feature of the feeder stands for: its own, or the nearer end of a span. */
function poleOf({ poleById }: OpenFeeder, feature: MapGeoJSONFeature, at: LngLat): string | null {
  const { id, pole, from, to } = feature.properties as Record<string, string | undefined>
  if (pole) return pole
  if (!from || !to) return id ?? null
  const gap = (end: string) => {
    const place: Position = poleById.get(end)?.at ?? [0, 0]
    return Math.hypot(place[0] - at.lng, place[1] - at.lat)
  }
  return gap(from) < gap(to) ? from : to
}

/** Clicking selects a pole; pointing at one shows it on strip and lists too. */
export function useFeederPointer(): void {
  const open = useFeeder()
  useMapClicks(
    LAYERS,
    (feature, at) => select({ pole: poleOf(open, feature, at) }),
    (feature, at) => hoverPole(feature && at ? poleOf(open, feature, at) : null),
  )
}
