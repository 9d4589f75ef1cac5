import { useMap } from '@vis.gl/react-maplibre'
import { useEffect } from 'react'
import { useCameraWish } from '../state/camera.ts'

/** Moves the map where a screen asked it to go. */
export function Camera() {
  const { current: map } = useMap()
  const wish = useCameraWish()
  useEffect(() => {
    if (!map || !wish) return
    const zoom = Math.max(map.getZoom(), wish.leastZoom)
    map.easeTo({ center: wish.at, zoom, duration: 500, essential: false })
  }, [map, wish])
  return null
}
