import type { SettledPlacement } from './build-proposal.ts'
import { type Study, worthOf } from './study.ts'
import { compareKeys, rankKey } from './trial-order.ts'

type Ordered = Pick<SettledPlacement, 'examined' | 'stepping'>

/**
 * Order of the proposals, best first: as trials are ranked, but of those that leave as many
 * customers outside, the one first that leaves fewer where taps step up from neutral.
 */
export function compareSettled(study: Study, a: Ordered, b: Ordered): number {
  const [one, other] = [keyOf(study, a), keyOf(study, b)]
  const stepping = extraOutside(study, a) - extraOutside(study, b)
  if (study.request.goal === 'service' && one[0] === other[0] && stepping !== 0) return stepping
  return compareKeys(one, other)
}

function keyOf(study: Study, { examined }: Ordered) {
  return rankKey(examined.trial, study.request.goal, worthOf(study, examined.sites))
}

/** Customers that stepping leaves outside beyond those of the settled cases; all where it does not settle. */
function extraOutside({ benches, judge }: Study, { examined, stepping }: Ordered): number {
  const all = judge.weight.reduce((sum, weight) => sum + weight, 0)
  return stepping.reduce((sum, { caseId, outside }) => {
    const at = benches.findIndex(({ loadCase }) => loadCase.id === caseId)
    const settled = examined.trial.cases[at]?.outside ?? 0
    return sum + (Number.isNaN(outside) ? all : outside - settled)
  }, 0)
}
