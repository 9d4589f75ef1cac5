import { benefitCurve } from './benefit-curve.ts'
import { programmeCandidates } from './candidate.ts'
import { chooseVisits } from './choose-visits.ts'
import { planRounds } from './plan-rounds.ts'
import type { ChosenPole, Programme, ProgrammeRequest, Round } from './programme.ts'
import type { ProgrammeInput } from './programme-input.ts'
import { type VisitCluster, visitClusters } from './visit-clusters.ts'
import { whyNotChosen } from './why-not-chosen.ts'

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
  const chosen = chooseVisits(clusters, request, (done, total) =>
    onProgress(done, total, 'choice of poles'),
  )
  const { visits, crowdedOut, limits } = chosen
  const rounds = planRounds(visits, request.polesPerCrewDay)
  const poles = chosenPoles(visits, rounds)
  const reduction = poles.reduce((sum, pole) => sum + pole.reduction, 0)
  const costUsd =
    poles.reduce((sum, pole) => sum + pole.costUsd, 0) + visits.length * request.visitCostUsd
  const asked = { budgetUsd: request.budgetUsd, reduction, poles: poles.length }
  const curve = benefitCurve(chosen.groups, limits.poles, asked, (done, total) =>
    onProgress(done, total, 'benefit for other budgets'),
  )
  const notChosen = whyNotChosen(candidates, poles, crowdedOut, limits.poles, request)
  return {
    request,
    poles,
    rounds,
    leftOut: [...leftOut, ...notChosen],
    costUsd,
    reduction,
    reductionPossible,
    gap: gapOf(chosen.bound, reduction),
    curve,
  }
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
