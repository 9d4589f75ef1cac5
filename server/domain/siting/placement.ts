import type { BankSettings, CompiledRegulator, Network } from '#domain/electrical/network.ts'
import { bankAtNeutral, type RegulatorBank } from '#domain/electrical/regulator-bank.ts'
import { REGULATOR_MAX_TAP } from '#domain/feeder/equipment.ts'
import { phaseMask, phasesOfMask } from '#domain/units/phases.ts'
import { choosePtRatio } from './choose-unit.ts'
import type { Candidate } from './screen.ts'
import type { SiteRequest } from './site-request.ts'

/** Each bank farther from the source waits at least this much longer (from memory). */
export const DELAY_STEP_S = 15

/** A candidate and the branch whose near end would carry the bank. */
export interface Site {
  readonly candidate: Candidate
  readonly branch: number
}

/** Candidates from the source outward, depth first. */
export function sitesOf(network: Network, candidates: readonly Candidate[]): Site[] {
  const branchOf = new Map(network.spanIds.map((id, at) => [id, network.spanFirstBranch[at] ?? -1]))
  return candidates
    .map((candidate) => ({ candidate, branch: branchOf.get(candidate.spanId) ?? -1 }))
    .filter(({ branch }) => branch >= 0)
    .sort((a, b) => a.branch - b.branch)
}

/** Id that a proposed bank bears until it is built. */
function proposedId(site: Site): string {
  return `new-${site.candidate.spanId}`
}

/**
 * Banks at neutral for the sites, which come source side first. Delays grow away from the source,
 * past the banks that stand already.
 */
export function placeBanks(
  network: Network,
  request: SiteRequest,
  sites: readonly Site[],
): RegulatorBank[] {
  const placed: RegulatorBank[] = []
  for (const site of sites) {
    const above = placed.filter((other) => isBeyond(network, site.branch, other.branch))
    const delayS = Math.max(
      delayAmongStanding(network, request.delayS, site.branch),
      ...above.map((other) => other.settings.delayS + DELAY_STEP_S),
    )
    const settings = settingsFor(site.candidate, request, delayS)
    placed.push(bankAtNeutral(proposedId(site), site.branch, settings))
  }
  return placed
}

/** Whether a branch hangs, directly or not, behind another one. */
export function isBeyond(network: Network, branch: number, upstream: number): boolean {
  return branch > upstream && branch < (network.subtreeEnd[upstream] ?? 0)
}

/** Banks standing between the source and the branch, and banks that it would feed. */
export function standingAround(network: Network, branch: number) {
  const above = network.regulators.filter((other) => isBeyond(network, branch, other.branch))
  const below = network.regulators.filter((other) => isBeyond(network, other.branch, branch))
  return { above, below }
}

/** The delay asked for, shortened for the sake of banks below, but longer than that of banks above. */
function delayAmongStanding(network: Network, wantedS: number, branch: number): number {
  const { above, below } = standingAround(network, branch)
  const delayS = (regulator: CompiledRegulator) => regulator.settings.delayS
  const mostS = Math.min(...below.map((other) => delayS(other) - DELAY_STEP_S))
  const shortened = Math.min(wantedS, Math.max(DELAY_STEP_S, mostS))
  return Math.max(shortened, ...above.map((other) => delayS(other) + DELAY_STEP_S))
}

function settingsFor(candidate: Candidate, request: SiteRequest, delayS: number): BankSettings {
  return {
    // A searched tap is the ideal ratio 1 + 0.00625 tap, which is that of type A.
    windingType: request.taps === 'search' ? 'A' : request.windingType,
    phases: phasesOfMask(phaseMask(candidate.phases)),
    ptRatio: choosePtRatio(candidate.nominalLineToNeutralV),
    // Only line-drop compensation reads it; that is worked out later, for the size chosen then.
    ctPrimaryA: 1,
    bandCentreV: request.bandCentreV,
    bandwidthV: request.bandwidthV,
    rV: 0,
    xV: 0,
    delayS,
    maxRaise: REGULATOR_MAX_TAP,
    maxLower: REGULATOR_MAX_TAP,
  }
}
