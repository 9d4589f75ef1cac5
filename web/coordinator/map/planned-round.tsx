import { Layer, Source } from '@vis.gl/react-maplibre'
import { MAP_FONT } from '../../map/blank-style.ts'
import type { MapColours } from '../../map/map-colours.ts'
import { SLOTS } from '../../map/slots.ts'
import type { RoundFeatures } from './bird-layers.ts'

interface Props {
  readonly features: RoundFeatures
  readonly colours: MapColours
}

/** Stops numbered in the order of driving, with a line from one to the next. */
export function PlannedRound({ features, colours }: Props) {
  return (
    <>
      <Source id="bird-round-ways" type="geojson" data={features.ways}>
        <Layer
          id="bird-round-ways"
          type="line"
          beforeId={SLOTS.marks}
          layout={{ 'line-join': 'round', 'line-cap': 'round' }}
          paint={{ 'line-color': colours.focus, 'line-width': 2, 'line-dasharray': [0.2, 2] }}
        />
      </Source>
      <Source id="bird-round-stops" type="geojson" data={features.stops}>
        <Layer
          id="bird-round-stops"
          type="circle"
          beforeId={SLOTS.marks}
          paint={{
            'circle-radius': ['interpolate', ['linear'], ['zoom'], 10, 2.5, 14, 11],
            'circle-color': colours.paper,
            'circle-opacity': 0,
            'circle-stroke-color': colours.focus,
            'circle-stroke-width': 2,
          }}
        />
        <Layer
          id="bird-round-numbers"
          type="symbol"
          beforeId={SLOTS.labels}
          minzoom={11}
          layout={{
            'text-field': ['get', 'label'],
            'text-font': MAP_FONT,
            'text-size': 13,
            'text-offset': [0, -1.1],
            'text-anchor': 'bottom',
            'text-optional': true,
          }}
          paint={{
            'text-color': colours.focus,
            'text-halo-color': colours.paper,
            'text-halo-width': 2,
          }}
        />
      </Source>
    </>
  )
}
