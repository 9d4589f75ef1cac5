import { Feeder } from '#domain/feeder/feeder.ts'
import { layersOfFeeder, layerText } from '../../../server/layer-files/layers-of-feeder.ts'
import { CASES } from './cases.ts'
import { servicesOf } from './customers.ts'
import { trunkOf } from './devices.ts'
import { draftFeeder } from './draft-feeder.ts'
import { skilletDevices, thimbleDevices } from './feeder-devices.ts'
import { landIndex, landLayers, PLACE } from './land-layers.ts'
import { type LaidFeeder, layFeeder } from './lay-feeder.ts'
import type { Landmark } from './place-words.ts'
import { SKILLET_START, skilletPlan } from './skillet-plan.ts'
import { skilletSurroundings } from './skillet-surroundings.ts'
import { THIMBLE_PLAN, THIMBLE_START } from './thimble-plan.ts'
import { thimbleSurroundings } from './thimble-surroundings.ts'
import { MAIN_ROADS, type Road, STREETS } from './valley.ts'

export interface Demo {
  readonly skillet: LaidFeeder
  readonly thimble: LaidFeeder
  readonly roads: readonly Road[]
}

export function layDemo(): Demo {
  const mainRoads = [...Object.values(MAIN_ROADS), ...STREETS]
  const thimble = layFeeder('thimble', 'T', THIMBLE_PLAN, THIMBLE_START, mainRoads)
  const tieEnd = trunkOf(thimble).poles.at(-1)
  if (!tieEnd) throw new Error('Expected the Thimble trunk to have poles.')
  const skillet = layFeeder('skillet', 'S', skilletPlan(tieEnd.at), SKILLET_START, mainRoads)
  return { skillet, thimble, roads: [...mainRoads, ...skillet.ways, ...thimble.ways] }
}

/** Every file of the demo: path under geodata/demo, and its text. The same on every run. */
export function demoFiles(): Map<string, string> {
  const { skillet, thimble, roads } = layDemo()
  const landmarks = landmarksOf(roads)
  const common = { roads, landmarks, placeId: PLACE.id }
  const limits = { lowVolts120: 118, highVolts120: 126 }
  const skilletServices = servicesOf(skillet)
  const thimbleServices = servicesOf(thimble)
  const feeders = [
    draftFeeder({
      ...common,
      laid: skillet,
      header: {
        name: 'Skillet feeder',
        nominalKv: 24.94,
        sourceVoltagePu: 1.045,
        cases: CASES,
        limits,
        growthPctPerYear: 1.2,
      },
      devices: skilletDevices,
      surroundings: skilletSurroundings(roads, skilletServices),
    }),
    draftFeeder({
      ...common,
      laid: thimble,
      header: {
        name: 'Thimble feeder',
        nominalKv: 12.47,
        sourceVoltagePu: 1.045,
        cases: CASES,
        limits,
        growthPctPerYear: 0.8,
      },
      devices: thimbleDevices,
      surroundings: thimbleSurroundings(roads, thimbleServices),
    }),
  ]
  const services = [...skilletServices, ...thimbleServices]
  const land = landLayers({ skillet, thimble, services, roads })
  return new Map([
    ...feeders.flatMap((draft) => folderFiles(Feeder.parse(draft))),
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

/** Turn-offs of the lanes and tracks: what a driver can see. */
function landmarksOf(roads: readonly Road[]): Landmark[] {
  return roads
    .filter(({ kind }) => kind === 'lane' || kind === 'track')
    .flatMap(({ name, kind, line }) => {
      const at = line[0]
      return at ? [{ words: `${name} ${kind === 'track' ? 'gate' : 'turn-off'}`, at }] : []
    })
}
