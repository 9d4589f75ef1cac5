import type { NodeVoltage } from '#domain/electrical/solution.ts'
import type { TracedSpan } from '#domain/network/trace-feeder.ts'
import { PHASES, type Phase } from '#domain/units/phases.ts'
import type { Converged } from '../../state/case-solutions.ts'
import type { FeederModel } from '../../state/feeder-model.ts'

/** A place on the profile: distance from the source and volts on the 120 V base. */
export interface ProfilePoint {
  readonly pole: string
  readonly distanceM: number
  readonly volts120: number
}

/** One span of one phase; a device in series gives a point more, at the distance of its pole. */
export interface ProfileSegment {
  readonly phase: Phase
  readonly isMain: boolean
  readonly points: readonly ProfilePoint[]
}

/**
 * The profile span by span, in the order of the trace. Only spans of which both ends have a
 * voltage on the phase are drawn.
 *
 * @param mainPoles poles of the main line, source first
 */
export function profileSegments(
  { trace }: FeederModel,
  { nodes }: Converged,
  mainPoles: readonly string[],
): ProfileSegment[] {
  const nodeById = new Map(nodes.map((node) => [node.id, node]))
  const main = new Set(mainPoles)
  return trace.spans.flatMap((traced) => {
    const stations = stationsOf(traced, nodeById)
    const isMain = main.has(traced.nearPole) && main.has(traced.farPole)
    return PHASES.flatMap((phase) => {
      const points = stations.flatMap((node) => pointOf(node, phase))
      const isWhole = points.length === stations.length && points.length > 1
      return isWhole ? [{ phase, isMain, points }] : []
    })
  })
}

function stationsOf(
  { nearPole, farPole, devices }: TracedSpan,
  nodeById: ReadonlyMap<string, NodeVoltage>,
): NodeVoltage[] {
  const outputs = devices.flatMap(({ id }) => nodeById.get(`${id}:out`) ?? [])
  const near = nodeById.get(nearPole)
  const far = nodeById.get(farPole)
  return near && far ? [near, ...outputs, far] : []
}

function pointOf({ poleId, distanceM, phases }: NodeVoltage, phase: Phase): ProfilePoint[] {
  const found = phases[phase]
  return found ? [{ pole: poleId, distanceM, volts120: found.volts120 }] : []
}

/** Lowest and highest of the volts drawn and of the limits, with air around them. */
export function voltsRange(
  segments: readonly ProfileSegment[],
  limits: { readonly lowVolts120: number; readonly highVolts120: number },
): [number, number] {
  let least = limits.lowVolts120
  let most = limits.highVolts120
  for (const { points } of segments) {
    for (const { volts120 } of points) {
      if (volts120 < least) least = volts120
      if (volts120 > most) most = volts120
    }
  }
  return [Math.floor(least - 0.5), Math.ceil(most + 0.5)]
}
