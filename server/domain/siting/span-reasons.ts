import type { Pole } from '#domain/feeder/pole.ts'
import type { TracedSpan } from '#domain/network/trace-feeder.ts'
import { type PhaseMask, phaseMask, phaseSetOfMask } from '#domain/units/phases.ts'
import { unitClassFor } from './choose-unit.ts'
import { lineAngleDeg } from './line-angle.ts'
import type { SiteRequest } from './site-request.ts'

/** Voltages up to this are not primary (ANSI C84.1 calls them low voltage; from memory). */
const LEAST_PRIMARY_V = 1000

/** Where a span stands that might carry a bank at its near end. */
export interface SpanPlace {
  readonly traced: TracedSpan
  readonly incoming: TracedSpan | undefined
  readonly nominalLineToNeutralV: number
  /** False where positions are only a scheme. */
  readonly isPlaced: boolean
}

/** Why the near end of a span cannot carry a bank. */
export function spanReasons(pole: Pole, place: SpanPlace, request: SiteRequest): string[] {
  return [
    ...phaseReasons(place.traced, request),
    ...turnReasons(pole, place, request),
    ...deviceReasons(place.traced),
    ...voltageReasons(place.nominalLineToNeutralV),
  ]
}

function phaseReasons({ mask, span }: TracedSpan, request: SiteRequest): string[] {
  if (mask === 0) return [`No phase arrives on span ${span.id}.`]
  if (request.phases === 'any' || mask === phaseMask('ABC')) return []
  return [`Onward line carries ${namePhases(mask)} only; all three phases are needed.`]
}

function namePhases(mask: PhaseMask): string {
  const names = [...phaseSetOfMask(mask)]
  return names.length === 1 ? `phase ${names[0]}` : `phases ${names.join(' and ')}`
}

function turnReasons(
  pole: Pole,
  { incoming, isPlaced, traced }: SpanPlace,
  request: SiteRequest,
): string[] {
  if (!incoming || !isPlaced || pole.isAnonymousNode) return []
  const turn = lineAngleDeg(incoming.span, traced.span, pole.id)
  const limit = request.mostLineAngleDeg
  if (turn === null || turn <= limit) return []
  return [`The line turns ${turn.toFixed(0)}° here; limit ${limit}°.`]
}

function deviceReasons({ span, devices, isReversed }: TracedSpan): string[] {
  const reasons = devices
    .filter((device) => device.kind === 'fuse')
    .map((device) => `A fuse (${device.name ?? device.id}) already sits in the onward span.`)
  if (isReversed) {
    reasons.push(
      `Span ${span.id} is recorded toward the source; swap its ends to try a bank on it.`,
    )
  }
  return reasons
}

function voltageReasons(nominalLineToNeutralV: number): string[] {
  if (nominalLineToNeutralV < LEAST_PRIMARY_V) {
    return [`The line is at ${nominalLineToNeutralV.toFixed(0)} V, not primary voltage.`]
  }
  if (unitClassFor(nominalLineToNeutralV)) return []
  const kv = (nominalLineToNeutralV / 1000).toFixed(1)
  return [`No preferred regulator unit is made for ${kv} kV to neutral.`]
}
