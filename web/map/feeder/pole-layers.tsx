import { Layer, Source } from '@vis.gl/react-maplibre'
import { useMemo } from 'react'
import { useFeeder } from '../../state/feeder.tsx'
import { MAP_FONT } from '../blank-style.ts'
import { useMapColours } from '../map-colours.ts'
import { SLOTS } from '../slots.ts'
import { poleFeatures } from './feeder-features.ts'

/** Poles: dots from about zoom 13, with arms across the line and their number from about 16. */
export function PoleLayers() {
  const open = useFeeder()
  const colours = useMapColours()
  const data = useMemo(() => poleFeatures(open), [open])
  return (
    <Source id="feeder-poles" type="geojson" data={data} promoteId="id">
      <Layer
        id="feeder-poles"
        type="circle"
        minzoom={12.5}
        beforeId={SLOTS.poles}
        paint={{
          'circle-color': colours.paper,
          'circle-radius': ['interpolate', ['linear'], ['zoom'], 12.5, 1.2, 14, 2.6, 16, 3.4],
          'circle-stroke-color': colours.ink,
          'circle-stroke-width': ['interpolate', ['linear'], ['zoom'], 12.5, 0.8, 15, 1.4],
        }}
      />
      <Layer
        id="feeder-pole-arms"
        type="symbol"
        minzoom={15.6}
        beforeId={SLOTS.poles}
        layout={{
          'icon-image': ['concat', 'symbol-', ['get', 'symbol']],
          'icon-rotate': ['get', 'turnDeg'],
          'icon-rotation-alignment': 'map',
          'icon-allow-overlap': true,
          'icon-ignore-placement': true,
          'icon-size': ['interpolate', ['linear'], ['zoom'], 15.6, 0.7, 18, 1.2],
        }}
      />
      <Layer
        id="feeder-pole-numbers"
        type="symbol"
        minzoom={15.6}
        beforeId={SLOTS.labels}
        layout={{
          'text-field': ['get', 'id'],
          'text-font': MAP_FONT,
          'text-size': 11,
          'text-variable-anchor': ['top-left', 'top-right', 'bottom-right', 'bottom-left'],
          'text-radial-offset': 1,
          'text-justify': 'auto',
        }}
        paint={{
          'text-color': colours.ink,
          'text-halo-color': colours.paper,
          'text-halo-width': 1.6,
        }}
      />
    </Source>
  )
}
