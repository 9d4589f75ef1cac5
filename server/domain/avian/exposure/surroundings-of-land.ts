import type { Feature, FeatureCollection } from 'geojson'
import { Area, Path } from '../../feeder/geometry.ts'
import type { Contour, GroundArea, Surroundings } from './surroundings.ts'

/**
 * Ground and relief of a base map: polygons of the layer `ground` with a property `kind`, and lines of
 * the layer `contours` with `height_m`. What is of another form is left out.
 */
export function surroundingsOfLand(
  layers: Readonly<Record<string, Pick<FeatureCollection, 'features'> | undefined>>,
): Surroundings {
  return {
    ground: (layers.ground?.features ?? []).flatMap(groundOf),
    contours: (layers.contours?.features ?? []).flatMap(contourOf),
  }
}

function groundOf({ geometry, properties }: Feature): GroundArea[] {
  const kind: unknown = properties?.kind
  if (geometry?.type !== 'Polygon' || typeof kind !== 'string') return []
  const area = Area.safeParse(geometry.coordinates)
  return area.success ? [{ area: area.data, kind }] : []
}

function contourOf({ geometry, properties }: Feature): Contour[] {
  const heightM: unknown = properties?.height_m
  if (geometry?.type !== 'LineString' || typeof heightM !== 'number') return []
  const path = Path.safeParse(geometry.coordinates)
  return path.success ? [{ path: path.data, heightM }] : []
}
