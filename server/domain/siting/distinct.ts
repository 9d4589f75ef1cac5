import type { Network } from '#domain/electrical/network.ts'
import type { Site } from './placement.ts'
import type { Ranked, Study } from './study.ts'

/** Poles within this share of the feeder's longest way are neighbours. */
const NEIGHBOUR_SHARE = 0.05

/** Names of neighbours beyond this many help nobody. */
const MOST_NEAR = 20

export interface Distinct extends Ranked {
  /** Neighbouring poles whose result is nearly the same, best first. */
  readonly nearAlternatives: readonly string[]
}

/**
 * Best placements that differ from each other; what is nearly the same as a better one stands beside
 * it. Placements that leave more customers outside than there are today are left out.
 */
export function distinctPlacements(study: Study, ranked: readonly Ranked[]): Distinct[] {
  const chosen: { best: Ranked; near: Set<string> }[] = []
  const reachM = NEIGHBOUR_SHARE * study.network.distanceM.reduce((a, b) => Math.max(a, b), 0)
  for (const placement of ranked) {
    if (study.request.goal === 'service' && placement.outside > study.before.outside) continue
    const same = chosen.find(({ best }) => isSame(study, reachM, best, placement))
    if (same) addPoles(same.near, placement, same.best)
    else if (chosen.length < study.request.maxProposals) {
      chosen.push({ best: placement, near: new Set() })
    }
  }
  return chosen.map(({ best, near }) => ({
    ...best,
    nearAlternatives: [...near].slice(0, MOST_NEAR),
  }))
}

function addPoles(near: Set<string>, placement: Ranked, best: Ranked): void {
  const own = new Set(best.sites.map((site) => site.candidate.poleId))
  for (const { candidate } of placement.sites)
    if (!own.has(candidate.poleId)) near.add(candidate.poleId)
}

function isSame(study: Study, reachM: number, a: Ranked, b: Ranked): boolean {
  const { before, network, request } = study
  const share = request.sameWithinPct / 100
  if (Math.abs(a.outside - b.outside) > share * before.outside) return false
  if (Math.abs(a.meanLossKw - b.meanLossKw) > share * before.meanLossKw) return false
  return a.sites.every((site, index) => {
    const other = b.sites[index]
    return other !== undefined && wayBetweenM(network, site, other) <= reachM
  })
}

/** Along the line between two sites, metres. */
function wayBetweenM(network: Network, a: Site, b: Site): number {
  const { parent, distanceM } = network
  let [one, two] = [parent[a.branch] ?? 0, parent[b.branch] ?? 0]
  const sumM = (distanceM[one] ?? 0) + (distanceM[two] ?? 0)
  while (one !== two) {
    if (one > two) one = parent[one] ?? 0
    else two = parent[two] ?? 0
  }
  return sumM - 2 * (distanceM[one] ?? 0)
}
