import type { Candidate } from './candidate.ts'
import type { ChosenPole, LeftOutPole, ProgrammeRequest } from './programme.ts'

/** Every candidate that was not chosen, with the reason in a sentence. */
export function whyNotChosen(
  candidates: readonly Candidate[],
  chosen: readonly ChosenPole[],
  crowdedOut: ReadonlySet<string>,
  mostPoles: number,
  request: ProgrammeRequest,
): LeftOutPole[] {
  const done = new Set(chosen.map(({ pole }) => pole))
  return candidates
    .filter(({ id }) => !done.has(id))
    .map((candidate) => ({
      pole: candidate.id,
      why: crowdedOut.has(candidate.id)
        ? 'No crew day is left for it on the days that nests leave free.'
        : moneyOrDays(candidate, chosen.length >= mostPoles, request),
    }))
}

function moneyOrDays(
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
