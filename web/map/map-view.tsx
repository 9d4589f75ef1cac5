import { type MapRef, Map as ReactMap } from '@vis.gl/react-maplibre'
import type { PaddingOptions } from 'maplibre-gl'
import * as maplibregl from 'maplibre-gl'
import workerUrl from 'maplibre-gl/dist/maplibre-gl-worker.mjs?url'
import 'maplibre-gl/dist/maplibre-gl.css'
import { type ReactNode, useRef } from 'react'
import { givePlace, noteMiddleOfMap, useIsPlaceAsked } from '../state/place-wish.ts'
import { LESS_MOTION, useMedia } from '../ui/use-media.ts'
import { listeningLayers, tellClick, tellHover } from './map-clicks.tsx'
import './map-view.css'
import type { Bounds } from './bounds.ts'
import { exposeMap } from './expose-map.ts'
import { useMapStyle } from './use-map-style.ts'

maplibregl.setWorkerUrl(workerUrl)

/** Pixels around the pointer within which a feature counts as hit. */
const REACH_PX = 7

interface Props {
  readonly bounds: Bounds
  /** Pixels that stay free of the fitted feeder, since something lies over the map there. */
  readonly covered: PaddingOptions
  readonly children: ReactNode
}

/** Labels come and go this softly, milliseconds. */
const LABEL_FADE_MS = 200

/**
 * The map with its slots. Sources and layers are children; what they declare is added in the slot
 * that their `beforeId` names and follows their properties.
 */
export function MapView({ bounds, covered, children }: Props) {
  const ref = useRef<MapRef>(null)
  const drawn = useMapStyle()
  const isStill = useMedia(LESS_MOTION)
  const isPlaceAsked = useIsPlaceAsked()
  const topmost = (event: maplibregl.MapMouseEvent) => {
    const { x, y } = event.point
    const layers = listeningLayers().filter((id) => event.target.getLayer(id))
    const near: [[number, number], [number, number]] = [
      [x - REACH_PX, y - REACH_PX],
      [x + REACH_PX, y + REACH_PX],
    ]
    return event.target.queryRenderedFeatures(near, { layers })[0] ?? null
  }
  if (!drawn) return <div className="map-view" role="status" aria-label="The map is being set up" />
  return (
    <ReactMap
      ref={ref}
      mapLib={maplibregl}
      mapStyle={drawn.style}
      initialViewState={{ bounds, fitBoundsOptions: { padding: covered } }}
      style={{ position: 'absolute', inset: 0 }}
      hash="map"
      attributionControl={false}
      maxPitch={0}
      dragRotate={false}
      pitchWithRotate={false}
      keyboard={false}
      fadeDuration={isStill ? 0 : LABEL_FADE_MS}
      onLoad={({ target }) => {
        target.touchZoomRotate.disableRotation()
        exposeMap(target)
        noteMiddleOfMap(target.getCenter().toArray())
      }}
      onMoveEnd={({ target }) => noteMiddleOfMap(target.getCenter().toArray())}
      onClick={(event) => {
        if (givePlace(event.lngLat.toArray())) return
        const feature = topmost(event)
        if (feature) tellClick(feature, event.lngLat)
      }}
      onMouseMove={(event) => {
        const feature = topmost(event)
        event.target.getCanvas().style.cursor = isPlaceAsked
          ? 'crosshair'
          : feature
            ? 'pointer'
            : ''
        tellHover(feature, event.lngLat)
      }}
      onMouseOut={() => tellHover(null, null)}
    >
      {children}
    </ReactMap>
  )
}
