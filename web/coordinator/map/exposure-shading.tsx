import { Layer, Source } from '@vis.gl/react-maplibre'
import type { MapColours } from '../../map/map-colours.ts'
import { SLOTS } from '../../map/slots.ts'

interface Props {
  readonly data: GeoJSON.FeatureCollection
  readonly colours: MapColours
}

/** Pixels at zoom 10; doubling with each step of zoom keeps the same ground, but never below a band that can be seen. */
const LEAST_PX = 9

/** A band along the line, the stronger the likelier birds are at its poles. */
export function ExposureShading({ data, colours }: Props) {
  return (
    <Source id="bird-exposure" type="geojson" data={data}>
      <Layer
        id="bird-exposure"
        type="circle"
        beforeId={SLOTS.areas}
        paint={{
          'circle-radius': ['interpolate', ['exponential', 2], ['zoom'], 11, LEAST_PX, 16, 90],
          'circle-blur': 0.6,
          'circle-opacity': 0.75,
          'circle-color': [
            'interpolate',
            ['linear'],
            ['get', 'exposure'],
            0,
            colours.shadeWeak,
            1,
            colours.shadeStrong,
          ],
        }}
        layout={{ 'circle-sort-key': ['get', 'exposure'] }}
      />
    </Source>
  )
}
