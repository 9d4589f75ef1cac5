import { Feeder } from '#domain/feeder/feeder.ts'
import { layersOfFeeder, layerText } from '../../../server/layer-files/layers-of-feeder.ts'
import { demoFeeders } from './demo-feeders.ts'
import { landIndex, landLayers } from './land-layers.ts'

/** Every file of the demo: path under geodata/demo, and its text. The same on every run. */
export function demoFiles(): Map<string, string> {
  const feeders = demoFeeders()
  const land = landLayers(feeders)
  return new Map([
    ...feeders.drafts.flatMap((draft) => folderFiles(Feeder.parse(draft))),
    ...[...land].map(([name, features]): [string, string] => [
      `land/${name}.geojson`,
      layerText({ type: 'FeatureCollection', features }),
    ]),
    ['land/land.json', layerText(landIndex(land))],
  ])
}

function folderFiles(feeder: Feeder): [string, string][] {
  return Object.entries(layersOfFeeder(feeder)).map(([file, content]) => [
    `${feeder.header.id}/${file}`,
    layerText(content),
  ])
}
