import type { PhaseSet } from '#domain/units/phases.ts'
import type { BranchPlan, ConductorSize } from './branch-plan.ts'
import { lineLength, pointAlong } from './curve.ts'
import { type Line, type Point, turnDeg } from './plane.ts'
import type { SeededRandom } from './seeded-random.ts'

export interface LaidPole {
  readonly id: string
  readonly at: Point
  readonly series: string
  /** Along its own branch, metres. */
  readonly alongM: number
}

export interface LaidSpan {
  readonly id: string
  readonly from: LaidPole
  readonly to: LaidPole
  readonly phases: PhaseSet
  readonly size: ConductorSize
}

export interface LaidBranch {
  readonly plan: BranchPlan
  /** The tap pole first; it belongs to the other branch. */
  readonly poles: readonly LaidPole[]
  readonly spans: readonly LaidSpan[]
  readonly route: Line
}

/** A turn sharper than this gets a pole of its own at the corner. */
const CORNER_DEG = 14
const SHORTEST_SPAN_M = 60
const LONGEST_SPAN_M = 110

export function layBranch(
  plan: BranchPlan,
  letter: string,
  first: LaidPole,
  random: SeededRandom,
): LaidBranch {
  const route = plan.route(first.at, random)
  const places = poleStations(route, plan.spanM, random)
  const poles = places.map(
    (alongM, i): LaidPole =>
      i === 0
        ? first
        : {
            id: poleId(letter, plan.series, i),
            at: pointAlong(route, alongM),
            series: plan.series,
            alongM,
          },
  )
  return { plan, poles, spans: spansOf(plan, poles), route }
}

/** Trunk poles are numbered from the substation; those of a lateral after its own number. */
function poleId(letter: string, series: string, index: number): string {
  return series === '' ? `${letter}-${index + 1}` : `${letter}${series}-${index}`
}

function spansOf(plan: BranchPlan, poles: readonly LaidPole[]): LaidSpan[] {
  return poles.slice(1).map((to, i) => {
    const from = poles[i] ?? to
    const fromM = i === 0 ? 0 : from.alongM
    return { id: `${from.id}:${to.id}`, from, to, phases: plan.phases, size: sizeAt(plan, fromM) }
  })
}

function sizeAt(plan: BranchPlan, alongM: number): ConductorSize {
  const passed = plan.conductors.filter(({ fromKm }) => fromKm * 1000 <= alongM)
  const size = passed.at(-1)?.size
  if (!size) throw new Error(`Branch "${plan.series}" needs a conductor from 0 km on.`)
  return size
}

/** Distances along the route at which poles stand: every corner, and evenly between corners. */
function poleStations(route: Line, spanM: number, random: SeededRandom): number[] {
  const corners = cornerStations(route)
  const stations: number[] = [0]
  for (let i = 1; i < corners.length; i++) {
    const from = corners[i - 1] ?? 0
    const to = corners[i] ?? from
    const spans = spanCount(to - from, spanM)
    const evenM = (to - from) / spans
    const slackM = Math.min(9, LONGEST_SPAN_M - evenM, evenM - SHORTEST_SPAN_M) / 2
    for (let k = 1; k <= spans; k++) {
      const shiftM = k === spans ? 0 : random.between(-1, 1) * Math.max(0, slackM)
      stations.push(from + evenM * k + shiftM)
    }
  }
  return stations
}

function spanCount(lengthM: number, spanM: number): number {
  const most = Math.max(1, Math.floor(lengthM / SHORTEST_SPAN_M))
  return Math.min(most, Math.max(Math.ceil(lengthM / LONGEST_SPAN_M), Math.round(lengthM / spanM)))
}

/** Start, sharp turns that leave room for whole spans, and end. */
function cornerStations(route: Line): number[] {
  const total = lineLength(route)
  const corners = [0]
  let alongM = 0
  for (let i = 1; i + 1 < route.length; i++) {
    const [before, at, after] = [route[i - 1], route[i], route[i + 1]]
    if (!before || !at || !after) continue
    alongM += lineLength([before, at])
    const isSharp = Math.abs(turnDeg(before, at, after)) > CORNER_DEG
    if (isSharp && fits(alongM - (corners.at(-1) ?? 0)) && fits(total - alongM))
      corners.push(alongM)
  }
  return [...corners, total]
}

/** True for a length that can be cut into spans of 60 to 110 m. */
function fits(lengthM: number): boolean {
  const spans = Math.ceil(lengthM / LONGEST_SPAN_M)
  return lengthM / spans >= SHORTEST_SPAN_M
}
