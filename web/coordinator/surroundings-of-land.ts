import type { LandFeature } from '#contract/geojson.ts'
import type { LandAnswer } from '#contract/land.ts'
import type { Contour, GroundArea, Surroundings } from '#domain/avian/exposure/surroundings.ts'

/** What the base map tells of the land around the poles. */
export function surroundingsOfLand({ layers }: LandAnswer): Surroundings {
  return {
    ground: (layers.ground?.features ?? []).flatMap(groundArea),
    contours: (layers.contours?.features ?? []).flatMap(contour),
  }
}

function groundArea({ geometry, properties }: LandFeature): GroundArea[] {
  if (geometry.type !== 'Polygon') return []
  return [{ area: geometry.coordinates as GroundArea['area'], kind: String(properties.kind) }]
}

function contour({ geometry, properties }: LandFeature): Contour[] {
  const heightM = Number(properties.height_m)
  if (geometry.type !== 'LineString' || !Number.isFinite(heightM)) return []
  return [{ path: geometry.coordinates as Contour['path'], heightM }]
}
