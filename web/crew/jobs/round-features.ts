import type { OrderedStop } from './round-order.ts'

export interface RoundFeatures {
  readonly stops: GeoJSON.FeatureCollection<
    GeoJSON.Point,
    { readonly pole: string; readonly label: string }
  >
  readonly way: GeoJSON.FeatureCollection<GeoJSON.LineString, Record<string, never>>
}

/** A round for the map: its stops with their numbers, and the line from one to the next. */
export function roundFeatures(order: readonly OrderedStop[]): RoundFeatures {
  const isRound = order.length > 1
  return {
    stops: {
      type: 'FeatureCollection',
      features: order.map(({ pole, at }, index) => ({
        type: 'Feature',
        properties: { pole, label: isRound ? `${index + 1}. ${pole}` : pole },
        geometry: { type: 'Point', coordinates: [...at] },
      })),
    },
    way: {
      type: 'FeatureCollection',
      features: isRound
        ? [
            {
              type: 'Feature',
              properties: {},
              geometry: { type: 'LineString', coordinates: order.map(({ at }) => [...at]) },
            },
          ]
        : [],
    },
  }
}
