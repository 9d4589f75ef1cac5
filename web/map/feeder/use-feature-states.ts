import { useMap } from '@vis.gl/react-maplibre'
import type { Map as MaplibreMap } from 'maplibre-gl'
import { useEffect } from 'react'

export type FeatureStates = ReadonlyMap<string, Readonly<Record<string, string | number | boolean>>>

function put(map: MaplibreMap, source: string, states: FeatureStates): void {
  for (const [id, state] of states) map.setFeatureState({ source, id }, state)
}

/**
 * Keeps the state of a source's features, by their promoted id, whenever the source comes, goes
 * and comes again. Each state names the same members every time, so that none is left over.
 */
export function useFeatureStates(source: string, states: FeatureStates): void {
  const { current: map } = useMap()
  useEffect(() => {
    const target = map?.getMap()
    if (!target) return
    let filled: unknown = null
    const fill = () => {
      const found = target.getSource(source)
      if (!found || found === filled) return
      filled = found
      put(target, source, states)
    }
    fill()
    target.on('sourcedata', fill)
    return () => {
      target.off('sourcedata', fill)
    }
  }, [map, source, states])
}
