import { bbox, booleanPointInPolygon, polygon } from '@turf/turf'
import type { BBox, Feature, Polygon } from 'geojson'
import type { Area, Position } from '../../feeder/geometry.ts'

interface Boxed<Item> {
  readonly item: Item
  readonly shape: Feature<Polygon>
  readonly box: BBox
}

/** Finds the areas that hold a place: box first, then Turf. In the order in which they came. */
export function areasAt<Item extends { readonly area: Area }>(
  items: readonly Item[],
): (at: Position) => Item[] {
  const boxed: Boxed<Item>[] = items.map((item) => {
    const shape = polygon(item.area)
    return { item, shape, box: bbox(shape) }
  })
  return (at) =>
    boxed
      .filter(({ box, shape }) => isInBox(at, box) && booleanPointInPolygon(at, shape))
      .map(({ item }) => item)
}

function isInBox([lon, lat]: Position, [west, south, east, north]: BBox): boolean {
  return lon >= west && lon <= east && lat >= south && lat <= north
}
