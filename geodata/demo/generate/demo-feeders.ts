import { CASES } from './cases.ts'
import { nearestOn } from './curve.ts'
import { type Service, servicesOf } from './customers.ts'
import { trunkOf } from './devices.ts'
import { draftFeeder } from './draft-feeder.ts'
import { skilletDevices, thimbleDevices } from './feeder-devices.ts'
import type { FeederDraft } from './feeder-draft.ts'
import { keepOutRings } from './keep-outs.ts'
import { type LaidFeeder, layFeeder } from './lay-feeder.ts'
import type { Landmark } from './place-words.ts'
import { SKILLET_START, skilletPlan } from './skillet-plan.ts'
import { SKILLET_KEEP_OUTS, skilletSurroundings } from './skillet-surroundings.ts'
import { THIMBLE_PLAN, THIMBLE_START } from './thimble-plan.ts'
import { THIMBLE_KEEP_OUTS, thimbleSurroundings } from './thimble-surroundings.ts'
import { MAIN_ROADS, MAIN_STREET_NORTH_YM, PLACE, type Road, STREETS } from './valley.ts'

/** Both feeders of the substation, with what the base map needs to know of them. */
export interface DemoFeeders {
  readonly skillet: LaidFeeder
  readonly thimble: LaidFeeder
  readonly roads: readonly Road[]
  readonly services: readonly Service[]
  readonly drafts: readonly FeederDraft[]
}

const SOURCE_VOLTAGE_PU = 1.045
const LIMITS = { lowVolts120: 118, highVolts120: 126 }

export function demoFeeders(): DemoFeeders {
  const { skillet, thimble, roads } = layLines()
  const common = { roads, landmarks: landmarksOf(roads), placeId: PLACE.id }
  const header = { sourceVoltagePu: SOURCE_VOLTAGE_PU, cases: CASES, limits: LIMITS }
  const skilletServices = servicesOf(skillet, keepOutRings(skillet, SKILLET_KEEP_OUTS))
  const thimbleServices = servicesOf(thimble, keepOutRings(thimble, THIMBLE_KEEP_OUTS))
  const drafts = [
    draftFeeder({
      ...common,
      laid: skillet,
      services: skilletServices,
      header: { ...header, name: 'Skillet feeder', nominalKv: 24.94, growthPctPerYear: 1.2 },
      devices: skilletDevices,
      surroundings: skilletSurroundings(roads, skilletServices),
    }),
    draftFeeder({
      ...common,
      laid: thimble,
      services: thimbleServices,
      header: { ...header, name: 'Thimble feeder', nominalKv: 12.47, growthPctPerYear: 0.8 },
      devices: thimbleDevices,
      surroundings: thimbleSurroundings(roads, thimbleServices),
      lastPoleNote: 'the open tie from the Skillet feeder ends here',
    }),
  ]
  return { skillet, thimble, roads, drafts, services: [...skilletServices, ...thimbleServices] }
}

/** The tie of the long feeder ends where the last pole of the short one stands. */
function layLines(): Pick<DemoFeeders, 'skillet' | 'thimble' | 'roads'> {
  const mainRoads = [...Object.values(MAIN_ROADS), ...STREETS]
  const thimble = layFeeder('thimble', 'T', THIMBLE_PLAN, THIMBLE_START, mainRoads)
  const tieEnd = trunkOf(thimble).poles.at(-1)
  if (!tieEnd) throw new Error('Expected the Thimble trunk to have poles.')
  const skillet = layFeeder('skillet', 'S', skilletPlan(tieEnd.at), SKILLET_START, mainRoads)
  return { skillet, thimble, roads: [...mainRoads, ...skillet.ways, ...thimble.ways] }
}

/** Turn-offs of the lanes, gates of the tracks, corners of the streets: what a driver can see. */
function landmarksOf(roads: readonly Road[]): Landmark[] {
  const atStart = roads
    .filter(({ kind }) => kind === 'lane' || kind === 'track')
    .flatMap(({ name, kind, line }) => {
      const at = line[0]
      return at ? [{ words: `${name} ${kind === 'track' ? 'gate' : 'turn-off'}`, at }] : []
    })
  const corners = STREETS.flatMap(({ name, line }) => {
    const at = line.find(([, yM]) => yM === MAIN_STREET_NORTH_YM)
    return at
      ? [
          { words: `${name} corner`, at },
          { words: `${MAIN_ROADS.skillet.name} corner`, at },
        ]
      : []
  })
  return [...atStart, ...corners, ...COUNTY_JUNCTIONS]
}

/** Where one county road leaves another. */
const COUNTY_JUNCTIONS: readonly Landmark[] = [
  { road: MAIN_ROADS.kettlebow, from: MAIN_ROADS.skillet },
  { road: MAIN_ROADS.farrowGate, from: MAIN_ROADS.kettlebow },
  { road: MAIN_ROADS.anvilCut, from: MAIN_ROADS.skillet },
  { road: MAIN_ROADS.ninebark, from: MAIN_ROADS.candlewick },
].flatMap(({ road, from }) => {
  const at = nearestOn(from.line, road.line[0] ?? [0, 0]).point
  return [
    { words: `${road.name} junction`, at },
    { words: `${from.name} junction`, at },
  ]
})
