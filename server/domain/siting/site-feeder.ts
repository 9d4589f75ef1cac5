import { compileNetwork } from '#domain/electrical/compile-network.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import type { Finding } from '#domain/feeder/finding.ts'
import type { LoadCase } from '#domain/feeder/header.ts'
import { volts120OfPu } from '#domain/units/voltage-base.ts'
import { beginStudy, type NoSolution } from './begin-study.ts'
import { buildProposal } from './build-proposal.ts'
import { distinctPlacements } from './distinct.ts'
import { effectOf } from './effect.ts'
import { examinePlacement, worseStepping } from './examine-placement.ts'
import { sitesOf } from './placement.ts'
import { notesOn, proofOfPairs, proofOfSingles } from './proof.ts'
import { type Screen, screenFeeder } from './screen.ts'
import { type PairSearch, searchPairs } from './search-pairs.ts'
import { type SingleTrial, searchSingles } from './search-singles.ts'
import { settleBanks } from './settings/settle-banks.ts'
import { compareSettled } from './settled-order.ts'
import type { SiteRequest } from './site-request.ts'
import type { CandidateScore, Proposal, SiteResult } from './site-result.ts'
import { Cancelled, checkIn, type Hooks, type Ranked, type Study } from './study.ts'
import { compareKeys } from './trial-order.ts'
import { tryReturning } from './try-returning.ts'

export type SiteOutcome =
  | { readonly status: 'done'; readonly result: SiteResult }
  | { readonly status: 'cancelled' }
  | { readonly status: 'rejected'; readonly findings: readonly Finding[] }
  | NoSolution

/**
 * Says on which pole one or two regulator banks belong: screens the poles, tries banks in every
 * case, ranks the placements and explains the best.
 */
export function siteFeeder(
  feeder: Feeder,
  request: SiteRequest,
  hooks: Partial<Hooks> = {},
): SiteOutcome {
  const compiled = compileNetwork(feeder)
  if (compiled.status === 'rejected') return { status: 'rejected', findings: compiled.findings }
  const cases = casesOf(feeder, request.caseIds)
  if (!Array.isArray(cases)) return { status: 'rejected', findings: [cases.missing] }
  const all: Hooks = { onProgress: () => undefined, isCancelled: () => false, ...hooks }
  try {
    const study = beginStudy(feeder, compiled.network, cases, request)
    if ('status' in study) return study
    return { status: 'done', result: runStudy(study, all) }
  } catch (error) {
    if (error instanceof Cancelled) return { status: 'cancelled' }
    throw error
  }
}

function casesOf(
  feeder: Feeder,
  caseIds: readonly string[] | undefined,
): LoadCase[] | { missing: Finding } {
  const { cases, id } = feeder.header
  const unknown = caseIds?.find((caseId) => !cases.some((loadCase) => loadCase.id === caseId))
  if (unknown === undefined) {
    return cases.filter((loadCase) => !caseIds || caseIds.includes(loadCase.id))
  }
  const missing: Finding = {
    severity: 'error',
    code: 'case-missing',
    layer: 'feeder',
    featureId: id,
    place: null,
    what: `There is no load case "${unknown}".`,
    remedy: `Ask for one of: ${cases.map((loadCase) => loadCase.id).join(', ')}.`,
  }
  return { missing }
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
  const bypassed = tryReturning(study, hooks)
  return {
    feeder: feeder.header.id,
    before: effectOf(study, study.before),
    proposals,
    candidates: singles.flatMap((single) => scoreOf(study, single)),
    excluded: [...screen.excluded],
    ...(bypassed.length > 0 && { bypassed }),
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

/** Runs the best placements again at full accuracy, works their settings out and ranks them by what that gives. */
function proposalsFrom(
  study: Study,
  screen: Screen,
  ranked: readonly Ranked[],
  hooks: Hooks,
): Proposal[] {
  const chosen = distinctPlacements(study, ranked)
  const phase =
    study.request.compensation === 'none' ? 'Checking the best' : 'Working out the settings'
  return chosen
    .flatMap((placement, index) => {
      const tell = () => checkIn(hooks, index + 1, chosen.length, phase)
      tell()
      const plain = examinePlacement(study, placement.sites)
      if (!plain) return []
      const settled = settleBanks(study, plain, tell)
      const stepping = worseStepping(study, settled.examined)
      return [{ ...placement, ...settled, stepping }]
    })
    .sort((a, b) => compareSettled(study, a, b))
    .map((placement, index) => buildProposal(study, screen, placement, index + 1))
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
