import type { LngLat, MapGeoJSONFeature } from 'maplibre-gl'
import { useEffect, useEffectEvent } from 'react'

export type ClickHandler = (feature: MapGeoJSONFeature, at: LngLat) => void
export type HoverHandler = (feature: MapGeoJSONFeature | null, at: LngLat | null) => void

interface Listener {
  readonly layers: readonly string[]
  readonly onClick: ClickHandler
  readonly onHover: HoverHandler
}

const listeners = new Set<Listener>()

/** Layers that react to the pointer, for the cursor and for finding what is under it. */
export function listeningLayers(): string[] {
  return [...new Set([...listeners].flatMap(({ layers }) => layers))]
}

/** Gives a feature to whoever listens to its layer. */
export function tellClick(feature: MapGeoJSONFeature, at: LngLat): void {
  for (const listener of listeners) {
    if (listener.layers.includes(feature.layer.id)) listener.onClick(feature, at)
  }
}

/** Tells every listener what is under the pointer: its own feature, or null. */
export function tellHover(feature: MapGeoJSONFeature | null, at: LngLat | null): void {
  for (const listener of listeners) {
    const isOwn = feature !== null && listener.layers.includes(feature.layer.id)
    listener.onHover(isOwn ? feature : null, at)
  }
}

/**
 * Reacts to clicks on layers. The topmost feature within a few pixels wins, so that a mark above
 * a pole is clicked instead of the pole. Everything clickable must be reachable from a desk too.
 */
export function useMapClicks(
  layers: readonly string[],
  onClick: ClickHandler,
  onHover?: HoverHandler,
): void {
  const click = useEffectEvent(onClick)
  const hover = useEffectEvent<HoverHandler>((feature, at) => onHover?.(feature, at))
  const key = layers.join(' ')
  useEffect(() => {
    const listener: Listener = {
      layers: key.split(' '),
      onClick: (feature, at) => click(feature, at),
      onHover: (feature, at) => hover(feature, at),
    }
    listeners.add(listener)
    return () => {
      listeners.delete(listener)
    }
  }, [key])
}
