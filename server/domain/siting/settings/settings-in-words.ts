import type { Study } from '../study.ts'
import type { Candidate, Compensation } from './candidate-settings.ts'
import type { LoadCentreKind } from './load-centres.ts'
import { type SettingsScore, WORTH_LOSS_SHARE, WORTH_MARGIN_V } from './settings-worth.ts'
import type { ChosenSettings, Refusal } from './work-out-settings.ts'

const CENTRES: Record<LoadCentreKind, string> = {
  'lowest customer': 'the customer with the lowest volts at the heaviest load',
  'middle of the load': 'where half of the bank’s current has left the line',
  'end of the zone': 'the end of the line that this bank alone holds',
}

/** Losses that differ by less are not worth a word. */
const TOLD_LOSS_SHARE = 0.005

/** Why these settings, in two or three sentences of plain trade words. */
export function settingsInWords(study: Study, settings: ChosenSettings): string {
  const { chosen, plain } = settings
  const sentences =
    chosen === plain
      ? [keptSentence(settings), nextBestSentence(study, settings)]
      : [choiceSentence(study, chosen.candidate), gainSentence(study, settings)]
  return [...sentences, refusedSentence(study, settings)].filter((words) => words !== '').join(' ')
}

function keptSentence({ plain, tried }: ChosenSettings): string {
  const stays = `The band centre of ${inVolts(plain.candidate.settings.bandCentreV)} asked for stays, without line-drop compensation`
  if (tried === 0) return `${stays}: there was nothing else to try.`
  return `${stays}: of ${tried} other settings none was worth leaving the plain ones for (fewer customers outside, else ${WORTH_MARGIN_V} V more margin or ${WORTH_LOSS_SHARE * 100} % less loss).`
}

function nextBestSentence(study: Study, { nextBest, plain }: ChosenSettings): string {
  if (!nextBest) return ''
  const changes = changesOf(study, plain.score, nextBest.score) || 'nearly the same'
  return `The best of them, ${settingsName(nextBest.candidate)}, would give ${changes}.`
}

function choiceSentence({ limits, network }: Study, { compensation, settings }: Candidate): string {
  const centre = inVolts(settings.bandCentreV)
  const high = `${limits.highVolts120} V`
  if (!compensation) {
    return `A band centre of ${centre} serves better than the one asked for, and needs no line-drop compensation; the first customers stay at or below ${high} with the band at its top.`
  }
  const pole = network.nodePoleIds[compensation.node] ?? ''
  return `${settingsName({ compensation, settings })}: the compensation is to pole ${pole}, ${CENTRES[compensation.kind]}${heldBack(compensation)}, and the centre is the highest that keeps the first customers at or below ${high} with the band at its top.`
}

function heldBack({ share }: Compensation): string {
  return share < 1 ? `, held back to ${(share * 100).toFixed(0)} % of the line’s drop` : ''
}

function gainSentence(study: Study, { chosen, plain }: ChosenSettings): string {
  const changes = changesOf(study, plain.score, chosen.score)
  return `Against ${settingsName(plain.candidate)} this gives ${changes}.`
}

/** "R 3.5 V, X 5 V, band centre 122 V" or "124 V without compensation". */
function settingsName({ compensation, settings }: Candidate): string {
  const { bandCentreV, rV, xV } = settings
  if (!compensation) return `${inVolts(bandCentreV)} without compensation`
  return `R ${inVolts(rV)}, X ${inVolts(xV)} and a band centre of ${inVolts(bandCentreV)}`
}

/** What differs, in the order in which it counts; over all cases. */
function changesOf({ judge }: Study, was: SettingsScore, is: SettingsScore): string {
  const what = judge.countsCustomers ? 'customers' : 'load points'
  const changes: string[] = [
    ...counted(was.outside, is.outside, `${what} outside`),
    ...counted(
      was.outsideAtEdges,
      is.outsideAtEdges,
      `${what} outside at the worse edge of the band`,
    ),
    ...volts(was.marginV, is.marginV, 'least margin behind the bank'),
    ...volts(was.meanMarginV, is.meanMarginV, 'margin over the hours of the cases'),
  ]
  return [...changes, ...losses(was.meanLossKw, is.meanLossKw)].join(', ')
}

/** Left out where the losses differ by next to nothing. */
function losses(wasKw: number, isKw: number): string[] {
  if (Math.abs(isKw - wasKw) < TOLD_LOSS_SHARE * wasKw) return []
  return [`a mean loss of ${isKw.toFixed(2)} instead of ${wasKw.toFixed(2)} kW`]
}

function counted(was: number, is: number, what: string): string[] {
  return was === is ? [] : [`${is} instead of ${was} ${what}`]
}

function volts(wasV: number, isV: number, what: string): string[] {
  const [from, to] = [wasV, isV].map((value) => value.toFixed(1).replace('-', '−'))
  return from === to || !Number.isFinite(isV) ? [] : [`${to} instead of ${from} V of ${what}`]
}

function refusedSentence(study: Study, { refused, tried }: ChosenSettings): string {
  if (refused.length === 0) return ''
  const because = (why: Refusal['why']) => refused.filter((refusal) => refusal.why === why)
  const tooHigh = because('first customers too high')
  const worse = because('customer farther outside')
  const looser = because('more outside at an edge')
  const unsettled = because('not settled')
  const parts = [
    ...part(tooHigh, study, `would lift the first customers above ${study.limits.highVolts120} V`),
    ...part(
      worse,
      study,
      'would put a customer outside, or farther outside than plain settings do,',
    ),
    ...part(looser, study, 'would leave more outside at an edge of the band'),
    ...part(unsettled, study, 'would not settle'),
  ]
  return `Refused, of ${tried} tried: ${parts.join('; ')}.`
}

function part(refusals: readonly Refusal[], { cases }: Study, what: string): string[] {
  if (refusals.length === 0) return []
  const names = cases.filter(({ id }) => refusals.some(({ caseId }) => caseId === id))
  return [`${refusals.length} ${what} in ${names.map(({ name }) => name).join(' and ')}`]
}

function inVolts(value: number): string {
  return `${value} V`
}
