import { placeBanks, type Site } from './placement.ts'
import { checkIn, type Hooks, type Study, worthOf } from './study.ts'
import { type Trial, tryPlacement } from './trial.ts'
import { type RankKey, rankKey } from './trial-order.ts'

/** One bank at one site; no trial where the line or the taps did not settle. */
export interface SingleTrial {
  readonly site: Site
  readonly trial: Trial | null
  readonly key: RankKey | null
  /** Largest change of any voltage that the bank does not feed, in any case, per unit. */
  readonly spillPu: number
}

/** Solves one bank on every site in every case. */
export function searchSingles(study: Study, sites: readonly Site[], hooks: Hooks): SingleTrial[] {
  return sites.map((site, index) => {
    const single = trySingle(study, site)
    checkIn(hooks, index + 1, sites.length, 'Trying one bank')
    return single
  })
}

function trySingle(study: Study, site: Site): SingleTrial {
  const { benches, network, request } = study
  const trial = tryPlacement(benches, placeBanks(network, request, [site]), request)
  if (!trial) return { site, trial, key: null, spillPu: 0 }
  const key = rankKey(trial, request.goal, worthOf(study, [site]))
  const spills = benches.map((_, index) => spillPu(study, index, site))
  return { site, trial, key, spillPu: Math.max(...spills) }
}

/** Change outside the bank's subtree against the feeder as it stands. */
function spillPu({ benches, judge, network, puBefore }: Study, index: number, site: Site): number {
  const pu = benches[index]?.pu
  const before = puBefore[index]
  if (!pu || !before) return 0
  const first = site.branch * 3
  const end = (network.subtreeEnd[site.branch] ?? 0) * 3
  let largest = 0
  for (const slot of judge.slots) {
    if (slot >= first && slot < end) continue
    largest = Math.max(largest, Math.abs((pu[slot] ?? 0) - (before[slot] ?? 0)))
  }
  return largest
}
