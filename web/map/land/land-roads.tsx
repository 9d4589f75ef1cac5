import { Layer, Source } from '@vis.gl/react-maplibre'
import type { FeatureCollection } from 'geojson'
import type { ExpressionSpecification } from 'maplibre-gl'
import { MAP_FONT } from '../blank-style.ts'
import { useMapColours } from '../map-colours.ts'
import { SLOTS } from '../slots.ts'

interface Props {
  readonly roads: FeatureCollection
  readonly fences: FeatureCollection | undefined
  readonly buildings: FeatureCollection | undefined
}

/** Width by kind of road, pixels at zoom 10 and 16, with what is added for the casing. */
function widthOf(addedPx: number): ExpressionSpecification {
  const at = (highway: number, county: number, rest: number): ExpressionSpecification => [
    'match',
    ['get', 'kind'],
    'highway',
    highway + addedPx,
    'county',
    county + addedPx,
    rest + addedPx,
  ]
  return ['interpolate', ['exponential', 1.4], ['zoom'], 10, at(1.6, 1, 0.4), 16, at(9, 6, 4)]
}

const IS_TRACK: ExpressionSpecification = ['==', ['get', 'kind'], 'track']

/** Roads with their names, and the buildings and fences beside them. */
export function LandRoads({ roads, fences, buildings }: Props) {
  const colours = useMapColours()
  return (
    <>
      {fences && (
        <Source id="land-fences" type="geojson" data={fences}>
          <Layer
            id="land-fences"
            type="line"
            minzoom={13.5}
            beforeId={SLOTS.land}
            paint={{
              'line-color': colours.fence,
              'line-width': 0.8,
              'line-dasharray': [6, 2, 1, 2],
            }}
          />
        </Source>
      )}
      <Source id="land-roads" type="geojson" data={roads}>
        <Layer
          id="land-road-casings"
          type="line"
          beforeId={SLOTS.land}
          filter={['!', IS_TRACK]}
          layout={{ 'line-cap': 'round', 'line-join': 'round' }}
          paint={{ 'line-color': colours.roadCasing, 'line-width': widthOf(1.4) }}
        />
        <Layer
          id="land-roads"
          type="line"
          beforeId={SLOTS.land}
          filter={['!', IS_TRACK]}
          layout={{ 'line-cap': 'round', 'line-join': 'round' }}
          paint={{ 'line-color': colours.road, 'line-width': widthOf(0) }}
        />
        <Layer
          id="land-tracks"
          type="line"
          minzoom={11}
          beforeId={SLOTS.land}
          filter={IS_TRACK}
          paint={{ 'line-color': colours.roadCasing, 'line-width': 1.2, 'line-dasharray': [4, 2] }}
        />
        <Layer
          id="land-road-names"
          type="symbol"
          minzoom={12}
          beforeId={SLOTS.labels}
          layout={{
            'symbol-placement': 'line',
            'symbol-spacing': 450,
            'text-field': ['get', 'name'],
            'text-font': MAP_FONT,
            'text-size': 11,
          }}
          paint={{
            'text-color': colours.inkSoft,
            'text-halo-color': colours.paper,
            'text-halo-width': 1.6,
          }}
        />
      </Source>
      {buildings && (
        <Source id="land-buildings" type="geojson" data={buildings}>
          <Layer
            id="land-buildings"
            type="fill"
            minzoom={13}
            beforeId={SLOTS.land}
            paint={{ 'fill-color': colours.building, 'fill-outline-color': colours.roadCasing }}
          />
        </Source>
      )}
    </>
  )
}
