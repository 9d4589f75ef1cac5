import { compileNetwork } from '#domain/electrical/compile-network.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import type { PhaseSet } from '#domain/units/phases.ts'
import { beginStudy } from './begin-study.ts'
import { buildProposal } from './build-proposal.ts'
import { examinePlacement, worseStepping } from './examine-placement.ts'
import { sitesOf } from './placement.ts'
import { lookAtPlace, type PlaceVerdict, type Surroundings, surroundingsOf } from './screen.ts'
import { settleBanks } from './settings/settle-banks.ts'
import type { SiteRequest } from './site-request.ts'
import type { Proposal } from './site-result.ts'
import type { Study } from './study.ts'

/** Where a person put a bank. */
export interface ChosenPlace {
  readonly pole: string
  readonly span: string
  readonly phases: PhaseSet
}

export type PlacesJudged =
  | { readonly status: 'judged'; readonly proposal: Proposal }
  /** Why there are no figures, for the person who put the bank there. */
  | { readonly status: 'not judged'; readonly what: string }

/** Everything about a feeder and a request that stays the same from place to place. */
export interface PlaceJudge {
  readonly study: Study
  readonly around: Surroundings
}

/** Solves the feeder as it stands and lays the screen out, once for many places; a text says why not. */
export function preparePlaces(feeder: Feeder, request: SiteRequest): PlaceJudge | string {
  const compiled = compileNetwork(feeder)
  if (compiled.status === 'rejected') {
    return `The feeder has errors: ${compiled.findings[0]?.what ?? ''}`
  }
  const { cases } = feeder.header
  const judged = cases.filter(({ id }) => request.caseIds?.includes(id) ?? true)
  const study = beginStudy(feeder, compiled.network, judged, request)
  if ('status' in study) return study.what
  return { study, around: surroundingsOf(feeder, request, judged) }
}

/**
 * A proposal for the places that a person chose: size, settings, figures and cautions come from the
 * same functions as those of a search. What would have ruled a place out stands first among the
 * cautions.
 */
export function judgePlaces(
  { around, study }: PlaceJudge,
  places: readonly ChosenPlace[],
): PlacesJudged {
  const looked = places.map((place) => looksOf(around, place))
  const verdicts = looked.filter((verdict) => verdict !== null)
  const sites = sitesOf(
    study.network,
    verdicts.map(({ candidate }) => candidate),
  )
  if (sites.length < places.length) {
    return { status: 'not judged', what: 'No closed line leaves the pole that way.' }
  }
  const plain = examinePlacement(study, sites)
  if (!plain) {
    return {
      status: 'not judged',
      what: 'With the bank there the taps do not settle in every case.',
    }
  }
  const settled = settleBanks(study, plain, () => undefined)
  const stepping = worseStepping(study, settled.examined)
  const screen = {
    screened: verdicts.map(({ screened }) => screened),
    cautions: new Map(verdicts.map((each) => [each.candidate.poleId, each.cautions])),
  }
  const proposal = buildProposal(study, screen, { ...settled, stepping, nearAlternatives: [] }, 1)
  // Sites are solved source side first; a person's banks keep the order that they had.
  const banks = places.flatMap(({ span }) => proposal.banks.filter((bank) => bank.span === span))
  const flags = [...verdicts.flatMap(ruledOut), ...proposal.flags]
  return { status: 'judged', proposal: { ...proposal, banks, flags } }
}

function looksOf(around: Surroundings, { phases, pole, span }: ChosenPlace): PlaceVerdict | null {
  const verdict = lookAtPlace(around, pole, span)
  return verdict && { ...verdict, candidate: { ...verdict.candidate, phases } }
}

function ruledOut({ candidate, reasons }: PlaceVerdict): string[] {
  if (reasons.length === 0) return []
  return [`The search rules pole ${candidate.poleId} out: ${reasons.join(' ')}`]
}
