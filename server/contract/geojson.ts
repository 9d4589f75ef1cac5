import { z } from 'zod'

/** GeoJSON as RFC 7946 defines it, without geometry collections. */
const Coordinates = z.array(z.number()).min(2)
const Line = z.array(Coordinates).min(2)
const Rings = z.array(z.array(Coordinates).min(4)).min(1)

export const Geometry = z.discriminatedUnion('type', [
  z.object({ type: z.literal('Point'), coordinates: Coordinates }),
  z.object({ type: z.literal('MultiPoint'), coordinates: z.array(Coordinates) }),
  z.object({ type: z.literal('LineString'), coordinates: Line }),
  z.object({ type: z.literal('MultiLineString'), coordinates: z.array(Line) }),
  z.object({ type: z.literal('Polygon'), coordinates: Rings }),
  z.object({ type: z.literal('MultiPolygon'), coordinates: z.array(Rings) }),
])

export const LandFeature = z.object({
  type: z.literal('Feature'),
  id: z.union([z.string(), z.number()]).optional(),
  geometry: Geometry,
  properties: z.record(z.string(), z.unknown()),
})

export const LandCollection = z.object({
  type: z.literal('FeatureCollection'),
  features: z.array(LandFeature),
})

export type LandFeature = z.infer<typeof LandFeature>
export type LandCollection = z.infer<typeof LandCollection>
