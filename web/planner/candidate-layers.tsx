import { Layer, Source } from '@vis.gl/react-maplibre'
import type { FeatureCollection } from 'geojson'
import { useMemo } from 'react'
import type { SiteResult } from '#domain/siting/site-result.ts'
import { MAP_FONT } from '../map/blank-style.ts'
import { useMapColours } from '../map/map-colours.ts'
import { SLOTS } from '../map/slots.ts'
import { useFeeder } from '../state/feeder.tsx'
import type { FeederModel } from '../state/feeder-model.ts'
import { candidateShares } from './candidate-shares.ts'

/** Shading along the line by how well a bank would do there, and a cross on poles ruled out. */
export function CandidateLayers({ result }: { readonly result: SiteResult }) {
  const model = useFeeder()
  const colours = useMapColours()
  const shading = useMemo(() => shadingOf(model, result), [model, result])
  const crosses = useMemo(() => crossesOf(model, result), [model, result])
  return (
    <>
      <Source id="candidates" type="geojson" data={shading}>
        <Layer
          id="candidates"
          type="line"
          beforeId={SLOTS.areas}
          layout={{
            'line-cap': 'round',
            'line-join': 'round',
            'line-sort-key': ['get', 'share'],
          }}
          paint={{
            'line-color': [
              'interpolate',
              ['linear'],
              ['get', 'share'],
              0,
              colours.shadeWeak,
              1,
              colours.shadeStrong,
            ],
            'line-width': ['interpolate', ['linear'], ['zoom'], 9, 11, 14, 20],
          }}
        />
      </Source>
      <Source id="excluded-poles" type="geojson" data={crosses}>
        <Layer
          id="excluded-poles"
          type="symbol"
          minzoom={13}
          beforeId={SLOTS.poles}
          layout={{
            'text-field': '×',
            'text-font': MAP_FONT,
            'text-size': ['interpolate', ['linear'], ['zoom'], 13, 14, 16, 22],
            'text-allow-overlap': true,
            'text-ignore-placement': true,
          }}
          paint={{
            'text-color': colours.inkSoft,
            'text-halo-color': colours.paper,
            'text-halo-width': 1,
          }}
        />
      </Source>
    </>
  )
}

function shadingOf({ spanById }: FeederModel, { candidates }: SiteResult): FeatureCollection {
  const shares = candidateShares(candidates)
  return {
    type: 'FeatureCollection',
    features: [...shares].flatMap(([id, share]) => {
      const span = spanById.get(id)
      if (!span) return []
      const geometry = { type: 'LineString' as const, coordinates: span.path }
      return [{ type: 'Feature' as const, geometry, properties: { id, share } }]
    }),
  }
}

function crossesOf({ poleById }: FeederModel, { excluded }: SiteResult): FeatureCollection {
  return {
    type: 'FeatureCollection',
    features: excluded.flatMap(({ pole }) => {
      const at = poleById.get(pole)?.at
      if (!at) return []
      const geometry = { type: 'Point' as const, coordinates: at }
      return [{ type: 'Feature' as const, geometry, properties: { id: pole } }]
    }),
  }
}
