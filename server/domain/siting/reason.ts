import { milesInWords } from '#domain/units/length.ts'
import { BASE_VOLTS120 } from '#domain/units/voltage-base.ts'
import type { BankReport, Examined } from './examine-placement.ts'
import { signed } from './flags.ts'
import { placeOfSlot } from './limit-judge.ts'
import type { Site } from './placement.ts'
import type { ScreenedPole } from './site-result.ts'
import type { Study } from './study.ts'
import type { Trial } from './trial.ts'

/** Why a placement is proposed, in at most three sentences of plain trade words. */
export function reasonFor(
  study: Study,
  examined: Examined,
  screened: ReadonlyMap<string, ScreenedPole>,
): string {
  const sentences =
    study.request.goal === 'loss'
      ? [lossSentence(study, examined), highestSentence(study, examined.trial)]
      : [customerSentence(study, examined.trial), lowestSentence(study, examined.trial)]
  return [...sentences, placeSentence(study, examined, screened)].join(' ')
}

function customerSentence(
  { before, cases, judge, limits }: Study,
  { cases: after }: Trial,
): string {
  const what = judge.countsCustomers ? 'customers' : 'load points'
  const band = `${limits.lowVolts120} to ${limits.highVolts120} V`
  const changes = cases.flatMap((loadCase, index) => {
    const was = before.cases[index]?.outside ?? 0
    const is = after[index]?.outside ?? 0
    return was > 0 || is > 0 ? [`${was} to ${is} (${loadCase.name})`] : []
  })
  if (changes.length === 0) return `No ${what} are outside ${band}, before or after.`
  return `Takes ${what} outside ${band} from ${changes.join(', ')}.`
}

function lowestSentence({ before, cases, network }: Study, { cases: after }: Trial): string {
  const worst = after.reduce((found, solved, index) => {
    return solved.lowestPu < (after[found]?.lowestPu ?? Number.POSITIVE_INFINITY) ? index : found
  }, 0)
  const solved = after[worst]
  if (!solved) return ''
  const wasV = Math.min(...before.cases.map((old) => old.lowestPu)) * BASE_VOLTS120
  const isV = solved.lowestPu * BASE_VOLTS120
  const { node, phase } = placeOfSlot(network, solved.lowestSlot)
  return `The lowest voltage ${changeOf(wasV, isV)} V (pole ${node}, phase ${phase}, ${cases[worst]?.name}).`
}

function changeOf(was: number, is: number): string {
  const [from, to] = [was.toFixed(1), is.toFixed(1)]
  if (from === to) return `stays at ${to}`
  return `${is > was ? 'rises' : 'falls'} from ${from} to ${to}`
}

function lossSentence({ before, request }: Study, { reports, trial }: Examined): string {
  const taps = reports.map((ofBank) => signed(Object.values(ofBank[0]?.taps ?? {})[0] ?? 0))
  const positions = request.taps === 'search' ? ` with position ${taps.join(' and ')}` : ''
  const [was, is] = [before.meanLossKw.toFixed(1), trial.meanLossKw.toFixed(1)]
  const verb = trial.meanLossKw <= before.meanLossKw ? 'fall' : 'rise'
  return `Losses ${verb} from ${was} to ${is} kW${positions}.`
}

function highestSentence({ limits, network }: Study, trial: Trial): string {
  const highest = trial.cases.toSorted((a, b) => b.highestPu - a.highestPu)[0]
  if (!highest) return ''
  const { node, phase } = placeOfSlot(network, highest.highestSlot)
  const volts = (highest.highestPu * BASE_VOLTS120).toFixed(1)
  const side = trial.overHighPu > 0 ? 'above' : 'within'
  return `The highest pole has ${volts} V (pole ${node}, phase ${phase}), ${side} the limit of ${limits.highVolts120} V.`
}

function placeSentence(
  study: Study,
  { reports, sites }: Examined,
  screened: ReadonlyMap<string, ScreenedPole>,
): string {
  const places = sites.map((site, index) => {
    const lowest = lowestInput(reports[index] ?? [])
    return `${placeOf(site, screened)}, where ${lowest.lowestInputPhase} phase arrives at ${lowest.lowestInputV.toFixed(1)} V (${caseName(study, lowest.caseId)})`
  })
  const [first, second] = places
  return second === undefined
    ? `The bank stands ${first}.`
    : `One bank stands ${first}, the other ${second}.`
}

function placeOf({ candidate }: Site, screened: ReadonlyMap<string, ScreenedPole>): string {
  const kva = (screened.get(candidate.poleId)?.downstreamKva ?? 0).toLocaleString('en-US', {
    maximumFractionDigits: 0,
  })
  return `${milesInWords(candidate.distanceM)} out with ${kva} kVA beyond it`
}

function lowestInput(reports: readonly BankReport[]): BankReport {
  const lowest = reports.toSorted((a, b) => a.lowestInputV - b.lowestInputV)[0]
  if (!lowest) throw new Error('Expected a bank to have a report for each case.')
  return lowest
}

function caseName({ cases }: Study, caseId: string): string {
  return cases.find((loadCase) => loadCase.id === caseId)?.name ?? caseId
}
