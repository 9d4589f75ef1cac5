import { booleanPointInPolygon, polygon } from '@turf/turf'
import type { Equipment } from '#domain/feeder/equipment.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import type { LoadCase } from '#domain/feeder/header.ts'
import type { Pole } from '#domain/feeder/pole.ts'
import { nominalVolts } from '#domain/network/nominal-volts.ts'
import { type FeederTrace, traceFeeder } from '#domain/network/trace-feeder.ts'
import { feetInWords } from '#domain/units/length.ts'
import { type PhaseSet, phaseSetOfMask } from '#domain/units/phases.ts'
import { type AccessFinder, findAccess } from './access-distance.ts'
import { type DownstreamLoad, downstreamLoad, heaviestCase } from './downstream-load.ts'
import { nestVerdict } from './nest-buffers.ts'
import { strengthReasons } from './pole-strength.ts'
import {
  type EquipmentVerdict,
  equipmentByPole,
  equipmentVerdict,
  movableTransformers,
} from './ruling-equipment.ts'
import { screenNotes } from './screen-notes.ts'
import type { SiteRequest } from './site-request.ts'
import type { ExcludedPole, ScreenedPole } from './site-result.ts'
import { spanReasons } from './span-reasons.ts'

/** A place where a bank may stand: the near end of one span. */
export interface Candidate {
  readonly poleId: string
  readonly spanId: string
  readonly phases: PhaseSet
  readonly distanceM: number
  readonly nominalLineToNeutralV: number
  /** What it costs to make room on the pole, before any bank. */
  readonly roomUsd: number
}

export interface Screen {
  readonly candidates: readonly Candidate[]
  readonly excluded: readonly ExcludedPole[]
  readonly screened: readonly ScreenedPole[]
  /** What was not recorded, and so ruled nothing out. */
  readonly notes: readonly string[]
  /** Nests near poles that stayed in, and what has to make way on them. */
  readonly cautions: ReadonlyMap<string, readonly string[]>
}

/** What poles of a feeder are screened against. */
export interface Surroundings {
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
  /** Reasons of the pole, and those of each span that leaves it. */
  readonly shared: readonly string[]
  readonly bySpan: readonly { readonly index: number; readonly reasons: readonly string[] }[]
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
    onPole(index + 1)
    return verdictOn(pole, around)
  })
  return {
    candidates: verdicts
      .flatMap((verdict) => verdict.candidates)
      .sort((a, b) => a.distanceM - b.distanceM || compareIds(a.spanId, b.spanId)),
    excluded: verdicts
      .filter((verdict) => verdict.candidates.length === 0)
      .map(({ bySpan, screened, shared }) => ({
        pole: screened.pole,
        reasons: [...shared, ...new Set(bySpan.flatMap(({ reasons }) => reasons))],
      })),
    screened: verdicts.map((verdict) => verdict.screened),
    notes: screenNotes(feeder, around.isPlaced),
    cautions: new Map(verdicts.map(({ screened, cautions }) => [screened.pole, cautions])),
  }
}

function compareIds(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0
}

/** Lays out what each pole is screened against. */
export function surroundingsOf(
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

/** What the screen says of one place, wherever a person puts the bank. */
export interface PlaceVerdict {
  readonly candidate: Candidate
  /** Why the search would not have tried it. */
  readonly reasons: readonly string[]
  readonly cautions: readonly string[]
  readonly screened: ScreenedPole
}

/** Looks at one place by itself. Null where no closed line leaves the pole by that span. */
export function lookAtPlace(
  around: Surroundings,
  poleId: string,
  spanId: string,
): PlaceVerdict | null {
  const pole = around.feeder.poles.find(({ id }) => id === poleId)
  const index = around.outgoing
    .get(poleId)
    ?.find((at) => around.trace.spans[at]?.span.id === spanId)
  if (!pole || index === undefined || (around.trace.spans[index]?.mask ?? 0) === 0) return null
  const { bySpan, cautions, screened, shared } = verdictOn(pole, around)
  const ofSpan = bySpan.find((span) => span.index === index)?.reasons ?? []
  return {
    candidate: candidateOn(pole, index, around),
    reasons: [...shared, ...ofSpan],
    cautions,
    screened,
  }
}

function verdictOn(pole: Pole, around: Surroundings): Verdict {
  const { trace, request } = around
  const outgoing = around.outgoing.get(pole.id) ?? []
  const feeding = trace.feedingSpan.get(pole.id)
  const equipment = equipmentVerdict(around.equipment.get(pole.id) ?? [], request)
  const ofPole = poleReasons(pole, feeding, outgoing, equipment, around)
  const bySpan = outgoing.map((index) => ({ index, reasons: reasonsOfSpan(pole, index, around) }))
  const nests = around.isPlaced
    ? nestVerdict(around.feeder.nests, pole.at, request.workMonth)
    : { reasons: [], cautions: [] }
  const accessM = accessOf(pole, around)
  const shared = [...ofPole, ...nests.reasons, ...accessReasons(accessM, request)]
  const fit = bySpan.filter(({ reasons }) => shared.length === 0 && reasons.length === 0)
  return {
    screened: figuresOf(pole, outgoing, feeding, accessM, fit.length > 0, around),
    candidates: fit.map(({ index }) => candidateOn(pole, index, around)),
    shared,
    bySpan,
    cautions: [...equipment.cautions, ...nests.cautions],
  }
}

function poleReasons(
  pole: Pole,
  feeding: number | undefined,
  outgoing: readonly number[],
  equipment: EquipmentVerdict,
  around: Surroundings,
): string[] {
  const reasons: string[] = []
  if (feeding === undefined) reasons.push('No closed line joins the pole to the source.')
  else if (outgoing.length === 0) reasons.push('The line ends here: a bank would serve nothing.')
  reasons.push(...equipment.reasons)
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
    `${feetInWords(accessM)} from the nearest road or track; limit ${feetInWords(request.accessWithinM)}.`,
  ]
}

function reasonsOfSpan(pole: Pole, index: number, around: Surroundings): string[] {
  const { isPlaced, nominalV, request, trace } = around
  const traced = trace.spans[index]
  if (!traced) return []
  const incoming = trace.spans[traced.parent]
  const nominalLineToNeutralV = nominalV[index] ?? 0
  return spanReasons(pole, { traced, incoming, nominalLineToNeutralV, isPlaced }, request)
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
    roomUsd: roomUsd(pole, around),
  }
}

function roomUsd({ id }: Pole, { equipment, request }: Surroundings): number {
  if (request.serviceTransformers === 'rule out') return 0
  return movableTransformers(equipment.get(id) ?? []).length * request.money.transformerMoveUsd
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
