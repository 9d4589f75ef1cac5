import { compileNetwork } from '#domain/electrical/compile-network.ts'
import type { Network } from '#domain/electrical/network.ts'
import { DEFAULT_LIMITS } from '#domain/electrical/sweep.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import type { Finding } from '#domain/feeder/finding.ts'
import type { LoadCase } from '#domain/feeder/header.ts'
import { volts120OfPu } from '#domain/units/voltage-base.ts'
import { buildProposal } from './build-proposal.ts'
import { distinctPlacements } from './distinct.ts'
import { heaviestCase } from './downstream-load.ts'
import { effectOf } from './effect.ts'
import { examinePlacement } from './examine-placement.ts'
import { compileJudge } from './limit-judge.ts'
import { sitesOf } from './placement.ts'
import { notesOn, proofOfPairs, proofOfSingles } from './proof.ts'
import { type Screen, screenFeeder } from './screen.ts'
import { type PairSearch, searchPairs } from './search-pairs.ts'
import { type SingleTrial, searchSingles } from './search-singles.ts'
import type { SiteRequest } from './site-request.ts'
import type { CandidateScore, Proposal, SiteResult } from './site-result.ts'
import { Cancelled, checkIn, type Hooks, type Ranked, type Study } from './study.ts'
import { trialOf } from './trial.ts'
import { benchOf, type CaseBench, type CaseTrial, tryControlled } from './trial-bench.ts'
import { compareKeys } from './trial-order.ts'

export type SiteOutcome =
  | { readonly status: 'done'; readonly result: SiteResult }
  | { readonly status: 'cancelled' }
  | { readonly status: 'rejected'; readonly findings: readonly Finding[] }
  /** The feeder as it stands has no solution in this case, so nothing can be compared with it. */
  | { readonly status: 'not-converged'; readonly caseId: string; readonly what: string }

/**
 * Says on which pole one or two regulator banks belong: screens the poles, tries banks in every
 * case, ranks the placements and explains the best.
 *
 * Throws for a case id that the feeder does not have.
 */
export function siteFeeder(
  feeder: Feeder,
  request: SiteRequest,
  hooks: Partial<Hooks> = {},
): SiteOutcome {
  const compiled = compileNetwork(feeder)
  if (compiled.status === 'rejected') return { status: 'rejected', findings: compiled.findings }
  const all: Hooks = { onProgress: () => undefined, isCancelled: () => false, ...hooks }
  try {
    const study = beginStudy(feeder, compiled.network, request)
    if ('status' in study) return study
    return { status: 'done', result: runStudy(study, all) }
  } catch (error) {
    if (error instanceof Cancelled) return { status: 'cancelled' }
    throw error
  }
}

function beginStudy(
  feeder: Feeder,
  network: Network,
  request: SiteRequest,
): Study | Extract<SiteOutcome, { status: 'not-converged' }> {
  const cases = casesOf(feeder, request.caseIds)
  const limits = {
    lowVolts120: request.lowVolts120 ?? feeder.header.limits.lowVolts120,
    highVolts120: request.highVolts120 ?? feeder.header.limits.highVolts120,
  }
  const judge = compileJudge(feeder, network, limits)
  const benches = cases.map((loadCase) => benchOf(network, judge, loadCase))
  const before: CaseTrial[] = []
  for (const bench of benches) {
    const solved = tryControlled(bench, [], DEFAULT_LIMITS)
    if (!solved) return noSolution(bench)
    before.push(solved)
  }
  return {
    feeder,
    network,
    request,
    limits,
    cases,
    judge,
    benches,
    before: trialOf(
      benches,
      before.map((solved) => ({ ...solved, taps: [] })),
    ),
    puBefore: benches.map((bench) => bench.pu.slice()),
    heaviest: cases.findIndex(({ id }) => id === heaviestCase(feeder, cases)?.id),
  }
}

function noSolution({ loadCase }: CaseBench): Extract<SiteOutcome, { status: 'not-converged' }> {
  return {
    status: 'not-converged',
    caseId: loadCase.id,
    what: `The feeder as it stands has no settled solution in ${loadCase.name}; solve that case alone to see why.`,
  }
}

function casesOf(feeder: Feeder, caseIds: readonly string[] | undefined): LoadCase[] {
  if (!caseIds) return feeder.header.cases
  return caseIds.map((id) => {
    const found = feeder.header.cases.find((loadCase) => loadCase.id === id)
    if (!found) throw new Error(`Feeder "${feeder.header.id}" has no case "${id}".`)
    return found
  })
}

function runStudy(study: Study, hooks: Hooks): SiteResult {
  const { feeder, request, cases } = study
  const screen = screenFeeder(feeder, request, cases, (done) =>
    checkIn(hooks, done, feeder.poles.length, 'Screening poles'),
  )
  const sites = sitesOf(study.network, screen.candidates)
  const singles = searchSingles(study, sites, hooks)
  const pairs = request.banks === 2 ? searchPairs(study, singles, hooks) : null
  const ranked = pairs ? pairs.ranked : rankedSingles(singles)
  const proposals = proposalsFrom(study, screen, ranked, hooks)
  return {
    feeder: feeder.header.id,
    before: effectOf(study, study.before),
    proposals,
    candidates: singles.flatMap((single) => scoreOf(study, single)),
    excluded: [...screen.excluded],
    screened: [...screen.screened],
    notes: [...notesOn(study, singles, pairs, proposals), ...screen.notes],
    tried: singles.length + (pairs?.solved ?? 0),
    proof: proofText(study, singles, pairs),
  }
}

function proofText(
  study: Study,
  singles: readonly SingleTrial[],
  pairs: PairSearch | null,
): string {
  const one = proofOfSingles(study, singles)
  return pairs ? `${one} ${proofOfPairs(study, pairs)}` : one
}

function rankedSingles(singles: readonly SingleTrial[]): Ranked[] {
  return singles
    .flatMap(({ key, site, trial }) =>
      key && trial
        ? [{ sites: [site], key, outside: trial.outside, meanLossKw: trial.meanLossKw }]
        : [],
    )
    .sort((a, b) => compareKeys(a.key, b.key))
}

function proposalsFrom(
  study: Study,
  screen: Screen,
  ranked: readonly Ranked[],
  hooks: Hooks,
): Proposal[] {
  const chosen = distinctPlacements(study, ranked)
  return chosen.flatMap((placement, index) => {
    checkIn(hooks, index, chosen.length, 'Checking the best')
    const examined = examinePlacement(study, placement.sites)
    return examined ? [buildProposal(study, screen, placement, examined, index + 1)] : []
  })
}

function scoreOf(study: Study, { site, trial }: SingleTrial): CandidateScore[] {
  if (!trial) return []
  return [
    {
      pole: site.candidate.poleId,
      span: site.candidate.spanId,
      customersOutside: trial.outside,
      lowestVolts120: volts120OfPu(Math.min(...trial.cases.map((solved) => solved.lowestPu))),
      lossKw: trial.cases[study.heaviest]?.lossKw ?? trial.meanLossKw,
    },
  ]
}
