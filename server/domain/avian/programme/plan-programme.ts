import { type DayRange, sharedRanges } from '../nests/calendar-days.ts'
import { benefitCurve } from './benefit-curve.ts'
import { bestChoice } from './best-choice.ts'
import { type Candidate, programmeCandidates } from './candidate.ts'
import { fitIntoDays, polesInDays } from './crew-days.ts'
import { planRounds } from './plan-rounds.ts'
import type { ChosenPole, LeftOutPole, Programme, ProgrammeRequest, Round } from './programme.ts'
import type { ProgrammeInput } from './programme-input.ts'
import { type VisitCluster, visitClusters } from './visit-clusters.ts'
import { centsOf, type VisitGroup } from './visit-group.ts'

export type OnProgress = (done: number, total: number, phase: string) => void

/**
 * The poles whose measures take away most, hazard times exposure, for the money and the crews' days,
 * in rounds that nests leave free. Buffers are advisory; the agency decides.
 *
 * @param onProgress Told now and then; whatever it throws ends the planning and comes through.
 * @throws Error where the last day comes before the first.
 */
export function planProgramme(
  input: ProgrammeInput,
  request: ProgrammeRequest,
  onProgress: OnProgress = () => undefined,
): Programme {
  if (request.to < request.from) {
    throw new Error(`The last day, ${request.to}, comes before the first, ${request.from}.`)
  }
  onProgress(0, input.assessments.length, 'poles and nests')
  const { candidates, leftOut, reductionPossible } = programmeCandidates(input, request)
  const clusters = visitClusters(candidates, request.sharedVisitM)
  const groups = clusters.map((cluster) => groupOf(cluster, request.visitCostUsd))
  const limits = {
    cents: Math.floor(request.budgetUsd * 100 + 1e-6),
    poles: polesInDays(request, request),
  }
  const best = bestChoice(groups, limits, {
    onProgress: (done, total) => onProgress(done, total, 'choice of poles'),
  })
  const wanted = new Set(best.items.map(({ poleId }) => poleId))
  const visits = fitIntoDays(chosenOf(clusters, wanted), request)
  const rounds = planRounds(visits, request.polesPerCrewDay)
  const poles = chosenPoles(visits, rounds)
  const reduction = poles.reduce((sum, pole) => sum + pole.reduction, 0)
  const costUsd =
    poles.reduce((sum, pole) => sum + pole.costUsd, 0) + visits.length * request.visitCostUsd
  const { budgetUsd } = request
  const curve = benefitCurve(
    groups,
    limits.poles,
    { budgetUsd, reduction, poles: poles.length },
    (done, total) => onProgress(done, total, 'benefit for other budgets'),
  )
  return {
    request,
    poles,
    rounds,
    leftOut: [...leftOut, ...notChosen(candidates, poles, wanted, limits.poles, request)],
    costUsd,
    reduction,
    reductionPossible,
    gap: gapOf(best.bound, reduction),
    curve,
  }
}

function groupOf({ poles }: VisitCluster, visitCostUsd: number): VisitGroup {
  return {
    visitCents: centsOf(visitCostUsd),
    items: poles.map(({ id, measures, reduction }) => ({
      poleId: id,
      cents: centsOf(measures.costUsd),
      worth: reduction,
    })),
  }
}

function chosenOf(clusters: readonly VisitCluster[], wanted: ReadonlySet<string>): VisitCluster[] {
  return clusters
    .map(({ poles }) => poles.filter(({ id }) => wanted.has(id)))
    .filter((poles) => poles.length > 0)
    .map((poles) => ({ poles, free: freeForAll(poles) }))
}

function freeForAll(poles: readonly Candidate[]): readonly DayRange[] {
  return poles.map(({ free }) => free).reduce(sharedRanges)
}

/** The weightiest first. */
function chosenPoles(visits: readonly VisitCluster[], rounds: readonly Round[]): ChosenPole[] {
  const roundOf = new Map(
    rounds.flatMap(({ poles }, index) => poles.map((pole) => [pole, index] as const)),
  )
  return visits
    .flatMap(({ poles }) => poles)
    .map(({ id, measures, reduction, notes }) => ({
      pole: id,
      measures: measures.uses.map(({ kind, partIds, dimensionM }) => ({
        kind,
        partIds: [...partIds],
        ...(dimensionM !== undefined && { dimensionM }),
      })),
      costUsd: measures.costUsd,
      reduction,
      round: roundOf.get(id) ?? 0,
      notes: [...notes],
    }))
    .sort((a, b) => b.reduction - a.reduction)
}

/** Share of the bound that the choice may lack; rounding of sums is none. */
function gapOf(bound: number, reduction: number): number {
  if (bound <= 0) return 0
  const gap = (bound - reduction) / bound
  return gap > 1e-9 ? gap : 0
}

function notChosen(
  candidates: readonly Candidate[],
  chosen: readonly ChosenPole[],
  wanted: ReadonlySet<string>,
  mostPoles: number,
  request: ProgrammeRequest,
): LeftOutPole[] {
  const done = new Set(chosen.map(({ pole }) => pole))
  return candidates
    .filter(({ id }) => !done.has(id))
    .map((candidate) => ({
      pole: candidate.id,
      why: wanted.has(candidate.id)
        ? 'No crew day is left for it on the days that nests leave free.'
        : whyNotChosen(candidate, chosen.length >= mostPoles, request),
    }))
}

function whyNotChosen(
  { measures }: Candidate,
  isFull: boolean,
  { budgetUsd, visitCostUsd }: ProgrammeRequest,
): string {
  const costUsd = measures.costUsd + visitCostUsd
  if (costUsd > budgetUsd) {
    return `Costs ${usd(costUsd)} with the way there, more than the budget of ${usd(budgetUsd)}.`
  }
  if (isFull) return 'The crews have no day left for it; other poles take away more.'
  return `The money takes away more elsewhere: it costs ${usd(measures.costUsd)}, and ${usd(visitCostUsd)} for the way if nothing is done near it.`
}

const usd = (amount: number): string => `$${Math.round(amount).toLocaleString('en-US')}`
