import type { MapGeoJSONFeature } from 'maplibre-gl'
import { useEffect, useEffectEvent } from 'react'

export type FeatureHandler = (feature: MapGeoJSONFeature) => void

interface Listener {
  readonly layers: readonly string[]
  readonly onClick: FeatureHandler
  readonly onHover?: (feature: MapGeoJSONFeature | null) => void
}

const listeners = new Set<Listener>()

/** Layers that react to the pointer, for the cursor and for finding what is under it. */
export function listeningLayers(): string[] {
  return [...new Set([...listeners].flatMap(({ layers }) => layers))]
}

/** Gives a feature to whoever listens to its layer. */
export function tellClick(feature: MapGeoJSONFeature): void {
  for (const listener of listeners) {
    if (listener.layers.includes(feature.layer.id)) listener.onClick(feature)
  }
}

/** Tells every listener what is under the pointer: its own feature, or null. */
export function tellHover(feature: MapGeoJSONFeature | null): void {
  for (const listener of listeners) {
    const isOwn = feature !== null && listener.layers.includes(feature.layer.id)
    listener.onHover?.(isOwn ? feature : null)
  }
}

/**
 * Reacts to clicks on layers. The topmost feature within a few pixels wins, so that a mark above
 * a pole is clicked instead of the pole. Everything clickable must be reachable from a desk too.
 */
export function useMapClicks(
  layers: readonly string[],
  onClick: FeatureHandler,
  onHover?: (feature: MapGeoJSONFeature | null) => void,
): void {
  const click = useEffectEvent(onClick)
  const hover = useEffectEvent((feature: MapGeoJSONFeature | null) => onHover?.(feature))
  const key = layers.join(' ')
  useEffect(() => {
    const listener: Listener = {
      layers: key.split(' '),
      onClick: (feature) => click(feature),
      onHover: (feature) => hover(feature),
    }
    listeners.add(listener)
    return () => {
      listeners.delete(listener)
    }
  }, [key])
}
