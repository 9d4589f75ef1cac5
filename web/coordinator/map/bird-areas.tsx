import { Layer, Source } from '@vis.gl/react-maplibre'
import { MAP_FONT } from '../../map/blank-style.ts'
import type { MapColours } from '../../map/map-colours.ts'
import { SLOTS } from '../../map/slots.ts'

interface Props {
  readonly data: GeoJSON.FeatureCollection
  readonly colours: MapColours
}

/** Habitat as a tint with a dotted edge. */
export function HabitatAreas({ data, colours }: Props) {
  return (
    <Source id="bird-habitat" type="geojson" data={data}>
      <Layer
        id="bird-habitat"
        type="fill"
        beforeId={SLOTS.areas}
        paint={{ 'fill-color': colours.focus, 'fill-opacity': 0.08 }}
      />
      <Layer
        id="bird-habitat-edge"
        type="line"
        beforeId={SLOTS.areas}
        paint={{ 'line-color': colours.focus, 'line-width': 1, 'line-dasharray': [1, 2] }}
      />
      <Layer
        id="bird-habitat-name"
        type="symbol"
        beforeId={SLOTS.labels}
        minzoom={11}
        layout={{ 'text-field': ['get', 'name'], 'text-font': MAP_FONT, 'text-size': 12 }}
        paint={{
          'text-color': colours.focus,
          'text-halo-color': colours.paper,
          'text-halo-width': 1.5,
        }}
      />
    </Source>
  )
}

/** Nest buffers: a full line and a tint in season, a dashed line out of season. */
export function NestBuffers({ data, colours }: Props) {
  return (
    <Source id="bird-buffers" type="geojson" data={data}>
      <Layer
        id="bird-buffers-tint"
        type="fill"
        filter={['get', 'in_season']}
        beforeId={SLOTS.areas}
        paint={{ 'fill-color': colours.accent, 'fill-opacity': 0.06 }}
      />
      <Layer
        id="bird-buffers-in-season"
        type="line"
        filter={['get', 'in_season']}
        beforeId={SLOTS.areas}
        paint={{ 'line-color': colours.accent, 'line-width': 2 }}
      />
      <Layer
        id="bird-buffers-out-of-season"
        type="line"
        filter={['!', ['get', 'in_season']]}
        beforeId={SLOTS.areas}
        paint={{ 'line-color': colours.inkSoft, 'line-width': 1.5, 'line-dasharray': [4, 3] }}
      />
    </Source>
  )
}
