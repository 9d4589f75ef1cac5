import { Layer, Source } from '@vis.gl/react-maplibre'
import type { FeatureCollection } from 'geojson'
import type { ExpressionSpecification } from 'maplibre-gl'
import { MAP_FONT } from '../blank-style.ts'
import { useMapColours } from '../map-colours.ts'
import { SLOTS } from '../slots.ts'

/** The lower the rank of a name, the earlier it is seen. */
const SEEN_AT: ExpressionSpecification = [
  'step',
  ['zoom'],
  ['<=', ['get', 'rank'], 1],
  10,
  ['<=', ['get', 'rank'], 2],
  11.5,
  ['<=', ['get', 'rank'], 3],
  13,
  true,
]

/** Names of town, hills, ranches and works. */
export function LandLabels({ labels }: { readonly labels: FeatureCollection }) {
  const colours = useMapColours()
  return (
    <Source id="land-labels" type="geojson" data={labels}>
      <Layer
        id="land-labels"
        type="symbol"
        beforeId={SLOTS.labels}
        filter={SEEN_AT}
        layout={{
          'text-field': ['get', 'name'],
          'text-font': MAP_FONT,
          'text-size': ['match', ['get', 'kind'], 'valley', 17, 'town', 16, 'ranch', 11, 13],
          'text-letter-spacing': ['match', ['get', 'kind'], 'valley', 0.25, 'hill', 0.12, 0.02],
          'text-max-width': 8,
          'symbol-sort-key': ['get', 'rank'],
          'text-padding': 6,
        }}
        paint={{
          'text-color': [
            'match',
            ['get', 'kind'],
            'water',
            colours.waterInk,
            'town',
            colours.ink,
            colours.inkSoft,
          ],
          'text-halo-color': colours.paper,
          'text-halo-width': 1.8,
        }}
      />
    </Source>
  )
}
