import { Layer, Source } from '@vis.gl/react-maplibre'
import type { FeatureCollection } from 'geojson'
import type { Converged } from '../../state/case-solutions.ts'
import { useFeeder } from '../../state/feeder.tsx'
import { useSelection } from '../../state/selection.ts'
import { worstPole } from '../../state/worst-pole.ts'
import { MAP_FONT } from '../blank-style.ts'
import { useMapColours } from '../map-colours.ts'
import { SLOTS } from '../slots.ts'

/** The worst voltage as a figure at its pole, readable when the whole feeder is in view. */
export function WorstVoltage({ solution }: { readonly solution: Converged | null }) {
  const { feeder, poleById } = useFeeder()
  const { phase } = useSelection()
  const colours = useMapColours()
  const worst = solution && worstPole(solution, phase, feeder.header.limits)
  const at = worst && poleById.get(worst.pole)?.at
  const features: FeatureCollection['features'] =
    worst && at
      ? [
          {
            type: 'Feature',
            geometry: { type: 'Point', coordinates: at },
            properties: { text: `${worst.volts120.toFixed(1)} V, ${worst.phase}` },
          },
        ]
      : []
  return (
    <Source id="worst-voltage" type="geojson" data={{ type: 'FeatureCollection', features }}>
      <Layer
        id="worst-voltage-dot"
        type="circle"
        beforeId={SLOTS.marks}
        paint={{
          'circle-radius': 4,
          'circle-color': colours.ink,
          'circle-stroke-color': colours.paper,
          'circle-stroke-width': 1.5,
        }}
      />
      <Layer
        id="worst-voltage"
        type="symbol"
        beforeId={SLOTS.labels}
        layout={{
          'text-field': ['get', 'text'],
          'text-font': MAP_FONT,
          'text-size': 15,
          'text-variable-anchor': ['top', 'bottom', 'left', 'right'],
          'text-radial-offset': 0.8,
          'text-allow-overlap': true,
        }}
        paint={{
          'text-color': colours.ink,
          'text-halo-color': colours.paper,
          'text-halo-width': 2.4,
        }}
      />
    </Source>
  )
}
