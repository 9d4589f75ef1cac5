import { BASE_VOLTS120 } from '#domain/units/voltage-base.ts'
import { EXTRA_SAVING_OF_LOSS, EXTRA_SAVING_SHARE, SPILL_MULTIPLE } from './pair-bound.ts'
import type { PairSearch } from './search-pairs.ts'
import type { SingleTrial } from './search-singles.ts'
import { serviceRangeSentence } from './service-ranges.ts'
import type { Proposal } from './site-result.ts'
import type { Study } from './study.ts'
import { totalHours } from './trial.ts'
import { compareKeys } from './trial-order.ts'

/** What was proven about one bank. */
export function proofOfSingles({ cases, request }: Study, singles: readonly SingleTrial[]): string {
  const poles = new Set(singles.map((single) => single.site.candidate.poleId)).size
  const places =
    singles.length > poles
      ? ` (${singles.length} places, counting each span that leaves a pole)`
      : ''
  const how = request.taps === 'search' ? 'at each of 33 positions' : 'with its taps under control'
  const failed = singles.filter((single) => !single.trial).length
  const unsettled = failed > 0 ? ` ${failed} of them did not settle and are left out.` : ''
  return `All ${poles} eligible poles${places} tried with one bank ${how} in ${counted(cases.length, 'case')}.${unsettled}`
}

function counted(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? '' : 's'}`
}

/** What was proven about two banks, and on which assumption. */
export function proofOfPairs({ request }: Study, pairs: PairSearch): string {
  const spillV = (pairs.spillPu * BASE_VOLTS120).toFixed(2)
  const cut = pairs.cutByCustomers + pairs.cutByLoss
  if (cut === 0) return `All ${pairs.total} pairs of poles solved.${positions(request.taps)}`
  const slackV = (2 * SPILL_MULTIPLE * pairs.spillPu * BASE_VOLTS120).toFixed(2)
  return [
    `Of ${pairs.total} pairs of poles ${pairs.solved} were solved and ${cut} cut off, as none of them can rank among the best ${pairs.kept}:`,
    `${pairs.cutByCustomers} because more customers would stay outside, ${pairs.cutByLoss} because the losses could not be low enough.`,
    `The bound takes it that a bank moves voltages it does not feed only through the load current: with one bank the largest such movement was ${spillV} V, and ${slackV} V was granted to every pair,`,
    `besides the rest of each control band and one step; and that two banks save no more than the sum of what each saves alone, ${EXTRA_SAVING_SHARE * 100} % of it and ${EXTRA_SAVING_OF_LOSS * 100} % of the loss today.${positions(request.taps)}`,
  ].join(' ')
}

function positions(taps: string): string {
  return taps === 'search'
    ? ' The positions of the two banks were found by turns, which does not prove them best.'
    : ''
}

/** Cautions on the result as a whole. */
export function notesOn(
  study: Study,
  singles: readonly SingleTrial[],
  pairs: PairSearch | null,
  proposals: readonly Proposal[],
): string[] {
  const { before, cases, judge, limits, request } = study
  const what = judge.countsCustomers ? 'customer' : 'load point'
  const notes: string[] = []
  if (!judge.countsCustomers)
    notes.push('No customers are recorded, so each load point counts as one.')
  if (before.outside === 0 && request.goal === 'service') {
    notes.push(`No ${what} is outside limits as the feeder stands; the ranking goes by cost alone.`)
  }
  if (singles.length === 0) notes.push('No pole passed the screen, so there was nothing to try.')
  else if (proposals.length === 0) {
    notes.push(`Every placement would leave more ${what}s outside than there are today.`)
  }
  if (totalHours(cases) === 0) {
    notes.push(
      'The cases have no hours per year, so losses have no yearly value; they are compared in the first case.',
    )
  }
  if (request.taps === 'search') {
    notes.push(
      'Searched positions take the ideal ratio 1 + 0.00625 × position, one for all phases, in each case by itself.',
    )
  }
  if (request.goal === 'service') {
    notes.push(serviceRangeSentence(limits.lowVolts120, limits.highVolts120))
  }
  return [...notes, ...oneIsEnough(singles, pairs)]
}

function oneIsEnough(singles: readonly SingleTrial[], pairs: PairSearch | null): string[] {
  const best = pairs?.ranked[0]
  const single = singles
    .filter((one) => one.key !== null)
    .sort((a, b) => (a.key && b.key ? compareKeys(a.key, b.key) : 0))[0]
  if (!best || !single?.key || compareKeys(single.key, best.key) > 0) return []
  return [
    `One bank at ${single.site.candidate.poleId} alone does as well as the best pair, or better, for less.`,
  ]
}
