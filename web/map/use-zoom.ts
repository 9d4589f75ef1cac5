import { useMap } from '@vis.gl/react-maplibre'
import { useEffect, useState } from 'react'

/** Zoom of the map, kept true once each move has ended. */
export function useZoom(): number {
  const { current: map } = useMap()
  const [zoom, setZoom] = useState(() => map?.getZoom() ?? 0)
  useEffect(() => {
    if (!map) return
    const read = () => setZoom(map.getZoom())
    read()
    map.on('zoomend', read)
    return () => {
      map.off('zoomend', read)
    }
  }, [map])
  return zoom
}
