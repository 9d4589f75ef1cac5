import { besideTrunk } from './beside-trunk.ts'
import { buildingFeatures } from './buildings.ts'
import { rectangle } from './circle.ts'
import { contourFeatures } from './contours.ts'
import { simplified } from './curve.ts'
import type { DemoFeeders } from './demo-feeders.ts'
import { fenceFeatures } from './fences.ts'
import { fieldsOf } from './fields.ts'
import { damLine, groundFeatures, reservoirRing } from './ground.ts'
import { keepOutRings } from './keep-outs.ts'
import { labelFeatures } from './labels.ts'
import { areaFeature, type LandFeature, lineFeature } from './land-feature.ts'
import type { LaidFeeder } from './lay-feeder.ts'
import { away, type Line, type Point, positionOf } from './plane.ts'
import { SKILLET_KEEP_OUTS } from './skillet-surroundings.ts'
import { THIMBLE_KEEP_OUTS } from './thimble-surroundings.ts'
import { EXTENT, PLACE, STREAMS } from './valley.ts'

/** Layers of the base map by name, in the order in which they are drawn. */
export function landLayers({
  skillet,
  thimble,
  services,
  roads,
}: DemoFeeders): Map<string, LandFeature[]> {
  const pit = pitOf(skillet)
  const roadLines = roads.map(({ line }) => line)
  const branchLines = [skillet, thimble].flatMap(({ branches }) =>
    branches.map(({ poles }) => poles.map(({ at }) => at)),
  )
  const water: Line[] = [...STREAMS.map(({ line }) => line), reservoirRing()]
  const pumps = services.filter(({ customerClass }) => customerClass === 'irrigation')
  const emptyLand = [
    ...keepOutRings(skillet, SKILLET_KEEP_OUTS),
    ...keepOutRings(thimble, THIMBLE_KEEP_OUTS),
  ]
  const fields = fieldsOf(
    pumps.map(({ pole }) => pole.at),
    [...roadLines, ...branchLines, ...water],
  )
  return new Map([
    ['ground', groundFeatures(fields, pit, airstripRing(skillet))],
    ['contours', contourFeatures()],
    ['water', waterFeatures()],
    ['fences', fenceFeatures(fields, roads)],
    [
      'roads',
      roads.map(({ line, name, kind }) => lineFeature(simplified(line, 1), { kind, name })),
    ],
    ['buildings', buildingFeatures(services, roadLines, branchLines, emptyLand)],
    ['labels', labelFeatures(skillet, services, pit)],
  ])
}

/** The runway lies north of its clear zone, across the line of approach. */
function airstripRing(skillet: LaidFeeder): Point[] {
  const { at, headingDeg } = besideTrunk(skillet, 28.9, -1_240)
  return rectangle(at, headingDeg + 90, 900, 24)
}

/** The pit lies beyond the last pole of its lateral. */
function pitOf(skillet: LaidFeeder): Point {
  const end = skillet.branches.find(({ plan }) => plan.series === '6')?.poles.at(-1)
  if (!end) throw new Error('Expected lateral 6 to lead to the gravel pit.')
  return away(end.at, 350, 265)
}

function waterFeatures(): LandFeature[] {
  return [
    ...STREAMS.map(({ name, kind, line }) => lineFeature(simplified(line, 2), { kind, name })),
    areaFeature(reservoirRing(), { kind: 'reservoir', name: 'Wexaw Reservoir' }),
    lineFeature(damLine(), { kind: 'dam', name: 'Wexaw dam' }),
  ]
}

/** What land.json says of the place. */
export function landIndex(layers: ReadonlyMap<string, readonly LandFeature[]>) {
  const [west, south] = positionOf([EXTENT.westM, EXTENT.southM])
  const [east, north] = positionOf([EXTENT.eastM, EXTENT.northM])
  return {
    id: PLACE.id,
    name: PLACE.name,
    note: 'Invented land; it lies at these coordinates only so that it can be drawn on a map.',
    bounds: [west, south, east, north],
    layers: [...layers].map(([name, features]) => ({
      name,
      file: `${name}.geojson`,
      features: features.length,
    })),
  }
}
