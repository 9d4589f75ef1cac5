import { Layer, Source } from '@vis.gl/react-maplibre'
import type { FeatureCollection } from 'geojson'
import { MAP_FONT } from '../blank-style.ts'
import { useMapColours } from '../map-colours.ts'
import { SLOTS } from '../slots.ts'

/** Creeks, reservoirs and dams with their names. */
export function LandWater({ water }: { readonly water: FeatureCollection }) {
  const colours = useMapColours()
  return (
    <Source id="land-water" type="geojson" data={water}>
      <Layer
        id="land-reservoirs"
        type="fill"
        beforeId={SLOTS.land}
        filter={['==', ['geometry-type'], 'Polygon']}
        paint={{ 'fill-color': colours.water, 'fill-outline-color': colours.waterInk }}
      />
      <Layer
        id="land-creeks"
        type="line"
        beforeId={SLOTS.land}
        filter={['all', ['==', ['geometry-type'], 'LineString'], ['!=', ['get', 'kind'], 'dam']]}
        layout={{ 'line-cap': 'round', 'line-join': 'round' }}
        paint={{
          'line-color': colours.waterInk,
          'line-opacity': 0.55,
          'line-width': [
            'interpolate',
            ['exponential', 1.5],
            ['zoom'],
            9,
            ['case', ['==', ['get', 'kind'], 'creek'], 1, 0.6],
            16,
            ['case', ['==', ['get', 'kind'], 'creek'], 7, 4],
          ],
        }}
      />
      <Layer
        id="land-dams"
        type="line"
        beforeId={SLOTS.land}
        filter={['==', ['get', 'kind'], 'dam']}
        paint={{ 'line-color': colours.inkSoft, 'line-width': 2 }}
      />
      <Layer
        id="land-creek-names"
        type="symbol"
        minzoom={11}
        beforeId={SLOTS.labels}
        filter={['==', ['geometry-type'], 'LineString']}
        layout={{
          'symbol-placement': 'line',
          'symbol-spacing': 420,
          'text-field': ['get', 'name'],
          'text-font': MAP_FONT,
          'text-size': 12,
          'text-letter-spacing': 0.08,
        }}
        paint={{
          'text-color': colours.waterInk,
          'text-halo-color': colours.paper,
          'text-halo-width': 1.4,
        }}
      />
    </Source>
  )
}
