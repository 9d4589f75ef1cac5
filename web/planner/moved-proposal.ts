import type { CaseSolution } from '#domain/electrical/solution.ts'
import { chooseCtPrimaryA, chooseUnit } from '#domain/siting/choose-unit.ts'
import {
  bankCostUsd,
  energyLossKwhPerYear,
  presentWorthOfLosses,
} from '#domain/siting/present-worth.ts'
import type { SiteRequest } from '#domain/siting/site-request.ts'
import type { CaseEffect, Effect, Proposal, ProposedBank } from '#domain/siting/site-result.ts'
import { lineToNeutralV } from '#domain/units/voltage-base.ts'
import type { Converged } from '../state/case-solutions.ts'
import type { FeederModel } from '../state/feeder-model.ts'
import { listed } from '../state/format.ts'
import { marginVolts } from '../state/shown-voltage.ts'
import { effectOf } from './effect.ts'
import { limitsOf } from './limits-of.ts'
import { trialBankId } from './trial-banks.ts'

interface Moved {
  readonly model: FeederModel
  readonly request: SiteRequest
  readonly original: Proposal
  readonly banks: readonly ProposedBank[]
  readonly before: readonly CaseSolution[]
  readonly after: readonly CaseSolution[]
}

/**
 * The proposal with its banks where a person put them, every figure computed anew from the
 * solutions. Null where a case did not converge with or without the banks.
 */
export function proposalOfMoved(moved: Moved): Proposal | null {
  const { model, request, original, banks } = moved
  const effects = effectsOf(moved, moved.after)
  const earlier = effectsOf(moved, moved.before)
  if (!effects || !earlier) return null
  const placed = banks.map((bank, index) => bankAsSolved(bank, index, moved))
  const lost = lossKwhPerYear(model, effects)
  const savedUsd = (lossKwhPerYear(model, earlier) - lost) * request.money.energyUsdPerKwh
  const costUsd = placed.reduce(
    (sum, { phases }) => sum + bankCostUsd(request.money, phases.length),
    0,
  )
  const { studyYears, discountRatePct } = request.money
  const worth = presentWorthOfLosses(
    studyYears,
    discountRatePct,
    model.feeder.header.growthPctPerYear,
  )
  return {
    rank: original.rank,
    banks: placed,
    after: effects,
    reason: reasonOf(original, banks),
    flags: [],
    marginVolts120: leastMargin(moved, effects),
    energyLossKwhPerYear: lost,
    lossSavedUsdPerYear: savedUsd,
    costUsd,
    presentWorthUsd: costUsd - savedUsd * worth,
    nearAlternatives: [],
  }
}

function convergedOnly(solutions: readonly CaseSolution[]): Converged[] | null {
  const converged = solutions.filter((solution) => solution.status === 'converged')
  return converged.length === solutions.length ? converged : null
}

function effectsOf({ model, request }: Moved, solutions: readonly CaseSolution[]): Effect | null {
  const limits = limitsOf(model.feeder.header, request)
  const cases: Record<string, CaseEffect> = {}
  for (const solution of convergedOnly(solutions) ?? []) {
    const effect = effectOf(model, solution, limits)
    if (effect) cases[solution.caseId] = effect
  }
  return Object.keys(cases).length === model.feeder.header.cases.length ? { cases } : null
}

function bankAsSolved(bank: ProposedBank, index: number, { model, request, after }: Moved) {
  const states = (convergedOnly(after) ?? []).flatMap(({ caseId, regulators }) => {
    const state = regulators.find(({ id }) => id === trialBankId(index))
    return state ? [{ caseId, state }] : []
  })
  const peakA = Math.max(0, ...states.flatMap(({ state }) => Object.values(state.currentA)))
  const nominalV = lineToNeutralV(model.feeder.header.nominalKv)
  const unit = chooseUnit(nominalV, peakA, request.ratingMarginPct) ?? bank
  return {
    ...bank,
    peakA,
    ratingKva: unit.ratingKva,
    ratingA: unit.ratingA,
    ctPrimaryA: chooseCtPrimaryA(unit.ratingA),
    taps: Object.fromEntries(states.map(({ caseId, state }) => [caseId, state.taps])),
  }
}

function lossKwhPerYear({ feeder }: FeederModel, { cases }: Effect): number {
  const { cases: all } = feeder.header
  return energyLossKwhPerYear(
    all,
    all.map(({ id }) => cases[id]?.lossKw ?? 0),
  )
}

function leastMargin({ model, request }: Moved, { cases }: Effect): number {
  const limits = limitsOf(model.feeder.header, request)
  const margins = Object.values(cases).flatMap(({ lowest, highest }) => [
    marginVolts(lowest.volts120, limits),
    marginVolts(highest.volts120, limits),
  ])
  return Math.min(...margins)
}

function reasonOf({ banks, rank }: Proposal, now: readonly ProposedBank[]): string {
  const from = listed(banks.map(({ pole }) => pole))
  const to = listed(now.map(({ pole }) => pole))
  return `Moved by hand from proposal ${rank} at pole ${from} to pole ${to}; every figure was computed anew there.`
}
