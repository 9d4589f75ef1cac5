import { type Line, type Point, positionOf } from './plane.ts'

export interface LandFeature {
  readonly type: 'Feature'
  readonly properties: Readonly<Record<string, string | number | boolean>>
  readonly geometry: { readonly type: string; readonly coordinates: unknown }
}

type Properties = LandFeature['properties']

export function pointFeature(at: Point, properties: Properties): LandFeature {
  return { type: 'Feature', properties, geometry: { type: 'Point', coordinates: positionOf(at) } }
}

export function lineFeature(line: Line, properties: Properties): LandFeature {
  const coordinates = line.map(positionOf)
  return { type: 'Feature', properties, geometry: { type: 'LineString', coordinates } }
}

/** `ring` is closed and runs counter-clockwise (RFC 7946, section 3.1.6). */
export function areaFeature(ring: Line, properties: Properties): LandFeature {
  const coordinates = [ring.map(positionOf)]
  return { type: 'Feature', properties, geometry: { type: 'Polygon', coordinates } }
}
