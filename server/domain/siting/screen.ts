import { booleanPointInPolygon, polygon } from '@turf/turf'
import type { Equipment } from '#domain/feeder/equipment.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import type { LoadCase } from '#domain/feeder/header.ts'
import type { Pole } from '#domain/feeder/pole.ts'
import { type FeederTrace, type TracedSpan, traceFeeder } from '#domain/network/trace-feeder.ts'
import { type PhaseMask, type PhaseSet, phaseMask, phaseSetOfMask } from '#domain/units/phases.ts'
import { lineToNeutralV } from '#domain/units/voltage-base.ts'
import { type AccessFinder, findAccess } from './access-distance.ts'
import { unitClassFor } from './choose-unit.ts'
import { type DownstreamLoad, downstreamLoad, heaviestCase } from './downstream-load.ts'
import { lineAngleDeg } from './line-angle.ts'
import { nestVerdict } from './nest-buffers.ts'
import { strengthReasons } from './pole-strength.ts'
import { equipmentByPole, equipmentReasons } from './ruling-equipment.ts'
import type { SiteRequest } from './site-request.ts'
import type { ExcludedPole, ScreenedPole } from './site-result.ts'

/** A place where a bank may stand: the near end of one span. */
export interface Candidate {
  readonly poleId: string
  readonly spanId: string
  readonly phases: PhaseSet
  readonly distanceM: number
  readonly nominalLineToNeutralV: number
}

export interface Screen {
  readonly candidates: readonly Candidate[]
  readonly excluded: readonly ExcludedPole[]
  readonly screened: readonly ScreenedPole[]
  /** What was not recorded, and so ruled nothing out. */
  readonly notes: readonly string[]
  /** Nests near poles that stayed in. */
  readonly cautions: ReadonlyMap<string, readonly string[]>
}

/** Voltages below this are not primary (IEEE 100 and ANSI C84.1 put low voltage at up to 1000 V; from memory). */
const LEAST_PRIMARY_V = 1000

interface Surroundings {
  readonly feeder: Feeder
  readonly request: SiteRequest
  readonly trace: FeederTrace
  readonly access: AccessFinder
  readonly equipment: ReadonlyMap<string, readonly Equipment[]>
  readonly outgoing: ReadonlyMap<string, readonly number[]>
  readonly nominalV: Float64Array
  readonly downstream: DownstreamLoad
  readonly isPlaced: boolean
}

interface Verdict {
  readonly screened: ScreenedPole
  readonly candidates: readonly Candidate[]
  readonly reasons: readonly string[]
  readonly cautions: readonly string[]
}

/**
 * Sorts the poles of a feeder into places where a bank may stand and poles that are ruled out, each
 * with all its reasons. What is not recorded rules nothing out and is said in the notes.
 */
export function screenFeeder(
  feeder: Feeder,
  request: SiteRequest,
  cases: readonly LoadCase[],
  onPole: (done: number) => void = () => undefined,
): Screen {
  const around = surroundingsOf(feeder, request, cases)
  const verdicts = feeder.poles.map((pole, index) => {
    onPole(index)
    return verdictOn(pole, around)
  })
  return {
    candidates: verdicts
      .flatMap((verdict) => verdict.candidates)
      .sort((a, b) => a.distanceM - b.distanceM || compareIds(a.spanId, b.spanId)),
    excluded: verdicts
      .filter((verdict) => verdict.candidates.length === 0)
      .map(({ screened, reasons }) => ({ pole: screened.pole, reasons: [...reasons] })),
    screened: verdicts.map((verdict) => verdict.screened),
    notes: notesOn(feeder, around.isPlaced),
    cautions: new Map(verdicts.map(({ screened, cautions }) => [screened.pole, cautions])),
  }
}

function compareIds(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0
}

function surroundingsOf(
  feeder: Feeder,
  request: SiteRequest,
  cases: readonly LoadCase[],
): Surroundings {
  const trace = traceFeeder(feeder)
  const heaviest = heaviestCase(feeder, cases)
  const none = {
    kva: new Float64Array(trace.spans.length),
    kvaKm: new Float64Array(trace.spans.length),
  }
  return {
    feeder,
    request,
    trace,
    access: findAccess(feeder.access),
    equipment: equipmentByPole(feeder.equipment),
    outgoing: spansByNearPole(trace),
    nominalV: nominalVolts(feeder, trace),
    downstream: heaviest ? downstreamLoad(feeder, trace, heaviest) : none,
    isPlaced: feeder.header.coordinates !== 'schematic',
  }
}

function spansByNearPole(trace: FeederTrace): Map<string, number[]> {
  const outgoing = new Map<string, number[]>()
  trace.spans.forEach(({ nearPole }, index) => {
    const found = outgoing.get(nearPole)
    if (found) found.push(index)
    else outgoing.set(nearPole, [index])
  })
  return outgoing
}

/** Nominal line-to-neutral volts along each traced span; series transformers change it. */
function nominalVolts(feeder: Feeder, trace: FeederTrace): Float64Array {
  const nominalV = new Float64Array(trace.spans.length)
  trace.spans.forEach(({ parent, devices }, index) => {
    const transformer = devices.find((device) => device.kind === 'transformer')
    const lowKv = transformer?.kind === 'transformer' ? transformer.lowKv : undefined
    const inherited = parent < 0 ? lineToNeutralV(feeder.header.nominalKv) : (nominalV[parent] ?? 0)
    nominalV[index] = lowKv === undefined ? inherited : lineToNeutralV(lowKv)
  })
  return nominalV
}

function verdictOn(pole: Pole, around: Surroundings): Verdict {
  const { trace, request } = around
  const outgoing = around.outgoing.get(pole.id) ?? []
  const feeding = trace.feedingSpan.get(pole.id)
  const ofPole = poleReasons(pole, feeding, outgoing, around)
  const bySpan = outgoing.map((index) => ({ index, reasons: spanReasons(pole, index, around) }))
  const nests = around.isPlaced
    ? nestVerdict(around.feeder.nests, pole.at, request.workMonth)
    : { reasons: [], cautions: [] }
  const accessM = accessOf(pole, around)
  const shared = [...ofPole, ...nests.reasons, ...accessReasons(accessM, request)]
  const fit = bySpan.filter(({ reasons }) => shared.length === 0 && reasons.length === 0)
  return {
    screened: figuresOf(pole, outgoing, feeding, accessM, fit.length > 0, around),
    candidates: fit.map(({ index }) => candidateOn(pole, index, around)),
    reasons: [...shared, ...new Set(bySpan.flatMap(({ reasons }) => reasons))],
    cautions: nests.cautions,
  }
}

function poleReasons(
  pole: Pole,
  feeding: number | undefined,
  outgoing: readonly number[],
  around: Surroundings,
): string[] {
  const reasons: string[] = []
  if (feeding === undefined) reasons.push('No closed line joins the pole to the source.')
  else if (outgoing.length === 0) reasons.push('The line ends here: a bank would serve nothing.')
  reasons.push(...equipmentReasons(around.equipment.get(pole.id) ?? []))
  reasons.push(...strengthReasons(pole, around.request))
  if (isSingleDeadEnd(pole)) reasons.push(`Dead-end pole (${pole.framing}).`)
  if (around.isPlaced) {
    for (const land of around.feeder.keepOuts) {
      if (!booleanPointInPolygon(pole.at, polygon(land.area))) continue
      reasons.push(`Inside keep-out land ${land.name}: ${land.reason}.`)
    }
  }
  return reasons
}

/** A double dead-end carries a bank well; a single one is the end of a line's pull. */
function isSingleDeadEnd(pole: Pole): boolean {
  const framing = pole.framing?.toLowerCase() ?? ''
  return /dead.?end/.test(framing) && !framing.includes('double')
}

function accessOf(pole: Pole, around: Surroundings): number | null {
  return around.isPlaced && !pole.isAnonymousNode ? around.access.distanceM(pole.at) : null
}

function accessReasons(accessM: number | null, request: SiteRequest): string[] {
  if (accessM === null || accessM <= request.accessWithinM) return []
  return [
    `${accessM.toFixed(0)} m from the nearest road or track; limit ${request.accessWithinM} m.`,
  ]
}

function spanReasons(pole: Pole, index: number, around: Surroundings): string[] {
  const traced = around.trace.spans[index]
  if (!traced) return []
  return [
    ...phaseReasons(traced, around.request),
    ...turnReasons(pole, traced, around),
    ...deviceReasons(traced),
    ...voltageReasons(around.nominalV[index] ?? 0),
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

function turnReasons(pole: Pole, traced: TracedSpan, around: Surroundings): string[] {
  const incoming = around.trace.spans[traced.parent]
  if (!incoming || !around.isPlaced || pole.isAnonymousNode) return []
  const turn = lineAngleDeg(incoming.span, traced.span, pole.id)
  const limit = around.request.mostLineAngleDeg
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

function candidateOn(pole: Pole, index: number, around: Surroundings): Candidate {
  const traced = around.trace.spans[index]
  if (!traced) throw new Error(`Expected a traced span at index ${index}.`)
  return {
    poleId: pole.id,
    spanId: traced.span.id,
    phases: phaseSetOfMask(traced.mask),
    distanceM: around.trace.spans[traced.parent]?.distanceM ?? 0,
    nominalLineToNeutralV: around.nominalV[index] ?? 0,
  }
}

function figuresOf(
  pole: Pole,
  outgoing: readonly number[],
  feeding: number | undefined,
  accessM: number | null,
  isEligible: boolean,
  { trace, downstream }: Surroundings,
): ScreenedPole {
  const onward = outgoing.reduce((mask, index) => mask | (trace.spans[index]?.mask ?? 0), 0)
  const sum = (figures: Float64Array) =>
    outgoing.reduce((total, index) => total + (figures[index] ?? 0), 0)
  return {
    pole: pole.id,
    isEligible,
    distanceM: feeding === undefined ? null : (trace.spans[feeding]?.distanceM ?? 0),
    accessM,
    phases: onward === 0 ? null : phaseSetOfMask(onward),
    downstreamKva: sum(downstream.kva),
    downstreamKvaKm: sum(downstream.kvaKm),
  }
}

function notesOn(feeder: Feeder, isPlaced: boolean): string[] {
  if (!isPlaced) {
    return ['Positions are a scheme, so roads, land, nests and line angles ruled nothing out.']
  }
  const notes: string[] = []
  const real = feeder.poles.filter((pole) => !pole.isAnonymousNode)
  const lacking = (what: string, count: number) => {
    if (count > 0)
      notes.push(
        `${count} of ${feeder.poles.length} poles have no ${what} recorded; that ruled none of them out.`,
      )
  }
  if (!feeder.access.some((way) => way.kind !== 'gate')) {
    notes.push('No roads or tracks are recorded, so distance to access ruled nothing out.')
  }
  if (feeder.nests.length === 0)
    notes.push('No nests are recorded, so nest seasons ruled nothing out.')
  lacking('length', real.filter((pole) => pole.heightM === undefined).length)
  lacking('class', real.filter((pole) => pole.poleClass === undefined).length)
  if (real.length < feeder.poles.length) {
    notes.push(`${feeder.poles.length - real.length} points stand for no known pole.`)
  }
  return notes
}
