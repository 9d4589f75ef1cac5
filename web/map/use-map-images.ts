import { useMap } from '@vis.gl/react-maplibre'
import type { Map as MaplibreMap } from 'maplibre-gl'
import { useEffect, useState } from 'react'

export type PutImages = (map: MaplibreMap) => void

/**
 * Draws images into the map as soon as it has a style. `isStyleLoaded` is no answer to that: it is
 * false while tiles come, when no further event has to follow.
 *
 * @param put kept from one drawing to the next as long as it draws the same
 * @returns what was put last, so that layers may name its images; null before the first
 */
export function useMapImages(put: PutImages): PutImages | null {
  const { current: map } = useMap()
  const [last, setLast] = useState<{ readonly put: PutImages } | null>(null)
  useEffect(() => {
    const target = map?.getMap()
    if (!target) return
    const putOnce = () => {
      if (!target.getStyle()) return
      target.off('styledata', putOnce)
      put(target)
      setLast({ put })
    }
    target.on('styledata', putOnce)
    putOnce()
    return () => {
      target.off('styledata', putOnce)
    }
  }, [map, put])
  return last?.put ?? null
}
