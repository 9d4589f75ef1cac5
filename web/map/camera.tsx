import { useMap } from '@vis.gl/react-maplibre'
import { useEffect } from 'react'
import { useCameraWish } from '../state/camera.ts'

/** Moves the map where a screen asked it to go; the offset keeps the place clear of a sheet. */
export function Camera({ offsetPx }: { readonly offsetPx: [number, number] }) {
  const { current: map } = useMap()
  const wish = useCameraWish()
  const [x, y] = offsetPx
  useEffect(() => {
    if (!map || !wish) return
    const offset: [number, number] = [x, y]
    const zoom = Math.max(map.getZoom(), wish.leastZoom)
    map.easeTo({ center: wish.at, zoom, offset, duration: 500, essential: false })
  }, [map, wish, x, y])
  return null
}
