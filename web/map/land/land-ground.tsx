import { Layer, Source } from '@vis.gl/react-maplibre'
import type { FeatureCollection } from 'geojson'
import type { ExpressionSpecification } from 'maplibre-gl'
import { M_PER_FT } from '#domain/units/length.ts'
import type { Units } from '../../state/address.ts'
import { useSelection } from '../../state/selection.ts'
import { MAP_FONT } from '../blank-style.ts'
import { type MapColours, useMapColours } from '../map-colours.ts'
import { SLOTS } from '../slots.ts'

interface Props {
  readonly ground: FeatureCollection
  readonly contours: FeatureCollection | undefined
}

function groundColour({ ground, paper }: MapColours): ExpressionSpecification {
  const pairs = Object.entries(ground).flat() as [string, string, ...string[]]
  return ['match', ['get', 'kind'], ...pairs, paper] as unknown as ExpressionSpecification
}

function heightText(units: Units): ExpressionSpecification {
  if (units === 'metric') return ['concat', ['get', 'height_m'], ' m']
  return ['concat', ['round', ['/', ['get', 'height_m'], M_PER_FT]], ' ft']
}

/** Ground tint and lines of equal height. */
export function LandGround({ ground, contours }: Props) {
  const colours = useMapColours()
  const { units } = useSelection()
  return (
    <>
      <Source id="land-ground" type="geojson" data={ground}>
        <Layer
          id="land-ground"
          type="fill"
          beforeId={SLOTS.land}
          paint={{ 'fill-color': groundColour(colours) }}
        />
      </Source>
      {contours && (
        <Source id="land-contours" type="geojson" data={contours} tolerance={0.6}>
          <Layer
            id="land-contours"
            type="line"
            minzoom={9}
            beforeId={SLOTS.land}
            paint={{
              'line-color': colours.contour,
              'line-width': ['case', ['==', ['get', 'is_index'], true], 1.1, 0.6],
              'line-opacity': [
                'interpolate',
                ['linear'],
                ['zoom'],
                9,
                ['case', ['==', ['get', 'is_index'], true], 0.7, 0],
                12,
                1,
              ],
            }}
          />
          <Layer
            id="land-contour-heights"
            type="symbol"
            minzoom={13}
            beforeId={SLOTS.labels}
            filter={['==', ['get', 'is_index'], true]}
            layout={{
              'symbol-placement': 'line',
              'symbol-spacing': 500,
              'text-field': heightText(units),
              'text-font': MAP_FONT,
              'text-size': 10,
            }}
            paint={{
              'text-color': colours.contourInk,
              'text-halo-color': colours.paper,
              'text-halo-width': 1.2,
            }}
          />
        </Source>
      )}
    </>
  )
}
