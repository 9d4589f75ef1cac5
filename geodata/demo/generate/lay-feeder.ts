import type { BranchPlan } from './branch-plan.ts'
import { beside, lineLength, nearestOn, partOf } from './curve.ts'
import { type LaidBranch, type LaidPole, type LaidSpan, layBranch } from './lay-line.ts'
import type { Point } from './plane.ts'
import { seededRandom } from './seeded-random.ts'
import { type Road, SEED } from './valley.ts'

export interface LaidFeeder {
  readonly id: string
  readonly letter: string
  readonly source: LaidPole
  readonly branches: readonly LaidBranch[]
  readonly poles: readonly LaidPole[]
  readonly spans: readonly LaidSpan[]
  /** Lanes and tracks that come with the laterals. */
  readonly ways: readonly Road[]
}

/** Lays every branch, parents before children, and the lanes beside them. */
export function layFeeder(
  id: string,
  letter: string,
  plans: readonly BranchPlan[],
  start: Point,
  roads: readonly Road[],
): LaidFeeder {
  const source: LaidPole = { id: `${letter}-1`, at: start, series: '', alongM: 0 }
  const branches: LaidBranch[] = []
  for (const plan of [...plans].sort(byParent)) {
    const first = plan.tap ? tapPole(branches, plan.tap) : source
    branches.push(layBranch(plan, letter, first, seededRandom(SEED, `${id} branch ${plan.series}`)))
  }
  return {
    id,
    letter,
    source,
    branches,
    poles: [source, ...branches.flatMap(({ poles }) => poles.slice(1))],
    spans: branches.flatMap(({ spans }) => spans),
    ways: branches.flatMap((branch) => wayBeside(branch, id, roads)),
  }
}

const byParent = (a: BranchPlan, b: BranchPlan): number => depth(a) - depth(b)
const depth = ({ tap }: BranchPlan): number => (tap === undefined ? 0 : tap.series === '' ? 1 : 2)

function tapPole(branches: readonly LaidBranch[], tap: NonNullable<BranchPlan['tap']>): LaidPole {
  const parent = branches.find(({ plan }) => plan.series === tap.series)
  const wanted = tap.km * 1000
  const [nearest] = [...(parent?.poles.slice(1, -1) ?? [])].sort(
    (a, b) => Math.abs(a.alongM - wanted) - Math.abs(b.alongM - wanted),
  )
  if (!nearest) throw new Error(`Branch "${tap.series}" has no pole to tap at ${tap.km} km.`)
  return nearest
}

/** The lane starts on the nearest road and keeps beside the lateral to its last pole. */
function wayBeside({ plan, route }: LaidBranch, feederId: string, roads: readonly Road[]): Road[] {
  if (!plan.way) return []
  const start = route[0]
  if (!start) return []
  const lane = beside(partOf(route, 45, lineLength(route)), plan.way.leftM)
  const turnOff = roads
    .map(({ line }) => nearestOn(line, start))
    .reduce((best, next) => (next.distanceM < best.distanceM ? next : best))
  const { name, kind } = plan.way
  return [{ id: `${feederId}-way-${plan.series}`, name, kind, line: [turnOff.point, ...lane] }]
}
