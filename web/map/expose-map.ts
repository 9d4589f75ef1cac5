import type { Map as MaplibreMap } from 'maplibre-gl'

declare global {
  interface Window {
    /** The drawn map; only where the page address has `expose=map`, for checks and for the curious. */
    crossarmMap?: MaplibreMap
  }
}

/**
 * Keeps `data-map` of the page at "busy" or "idle", and hands the map out where the address asks
 * for it with `expose=map`.
 */
export function exposeMap(map: MaplibreMap): void {
  const say = (state: 'busy' | 'idle') => {
    document.body.dataset.map = state
  }
  map.on('dataloading', () => say('busy'))
  map.on('movestart', () => say('busy'))
  map.on('idle', () => say('idle'))
  if (new URLSearchParams(window.location.search).get('expose') === 'map') window.crossarmMap = map
}
