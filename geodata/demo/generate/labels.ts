import { besideTrunk } from './beside-trunk.ts'
import type { Service } from './customers.ts'
import { type LandFeature, pointFeature } from './land-feature.ts'
import type { LaidFeeder } from './lay-feeder.ts'
import { away, distance, type Point } from './plane.ts'
import { seededRandom } from './seeded-random.ts'
import { SEED, SUBSTATION } from './valley.ts'

/** Invented ranch names; as far as known no such place exists. */
const RANCH_NAMES = [
  'Quillback Ranch',
  'Lazy Ladle Ranch',
  'Teasel Bar Ranch',
  'Burnt Griddle Ranch',
  'Halfmoon Hasp Ranch',
  'Two Trivets Ranch',
  'Old Pothook Ranch',
  'Firedog Ranch',
  'Sifter Springs Ranch',
  'Broken Bellows Ranch',
  'Hearthstone Fork Ranch',
  'Rolling Ember Ranch',
  'Spindlegate Ranch',
  'Wool Card Ranch',
  'Nine Bobbins Ranch',
] as const

const FEWEST_M_BETWEEN_NAMES = 2_100

export function labelFeatures(
  skillet: LaidFeeder,
  services: readonly Service[],
  pit: Point,
): LandFeature[] {
  const label = (at: Point, name: string, kind: string, rank: number): LandFeature =>
    pointFeature(at, { name, kind, rank })
  const hamlet = besideTrunk(skillet, 22.4, -260).at
  return [
    label([-15_200, 2_600], 'Brindlemark Valley', 'valley', 1),
    label([-29_600, 12_900], 'Upper basin', 'valley', 2),
    label([680, 1_860], 'Pellory', 'town', 1),
    label(hamlet, 'Hob Corner', 'hamlet', 2),
    label([-22_700, 8_050], 'Wexaw Reservoir', 'water', 2),
    label([-17_250, 9_950], 'The Kettlebow', 'hill', 2),
    label([-25_600, 18_400], 'Tripe Hills', 'hill', 3),
    label([-5_300, 7_600], 'Cinderpot Bench', 'hill', 3),
    label([-7_200, -5_600], 'Loom Ridge', 'hill', 3),
    label([-30_800, 5_600], 'Snuffer Butte', 'hill', 3),
    label(away(SUBSTATION, 180, 60), 'Pellory substation', 'substation', 3),
    label(pit, 'Riddle gravel pit', 'works', 3),
    label(besideTrunk(skillet, 28.9, -1_240).at, 'Brindlemark airstrip', 'airstrip', 3),
    ...ranchLabels(services).map(({ at, name }) => label(at, name, 'ranch', 4)),
  ]
}

function ranchLabels(services: readonly Service[]): { at: Point; name: string }[] {
  const ranches = services.filter(({ customerClass }) => customerClass === 'ranch')
  const chosen: { at: Point; name: string }[] = []
  for (const { pole } of seededRandom(SEED, 'ranch names').shuffled(ranches)) {
    const name = RANCH_NAMES[chosen.length]
    const isApart = chosen.every(({ at }) => distance(at, pole.at) > FEWEST_M_BETWEEN_NAMES)
    if (name && isApart) chosen.push({ at: away(pole.at, 45, 90), name })
  }
  return chosen
}
