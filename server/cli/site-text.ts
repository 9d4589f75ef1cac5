import type { Feeder } from '#domain/feeder/feeder.ts'
import type {
  CaseEffect,
  Effect,
  ExcludedPole,
  Proposal,
  ProposedBank,
  SiteResult,
} from '#domain/siting/site-result.ts'
import { miles } from './miles.ts'
import { left, right, textTable } from './text-table.ts'
import { signed } from './voltage-text.ts'

/** The answer for a person: as it stands, the ranking, why, and what was ruled out. */
export function siteText(feeder: Feeder, result: SiteResult): string {
  const [best] = result.proposals
  return [
    `${feeder.header.name} (${feeder.header.id})`,
    '',
    'As it stands',
    effectTable(result.before),
    '',
    ...(result.bypassed ?? []).flatMap(({ words }) => [words, '']),
    ...(best
      ? [rankingTable(result.proposals), '', ...result.proposals.flatMap(proposalText)]
      : []),
    ...(best ? [] : ['No pole can carry a bank with a better result.', '']),
    excludedText(result.excluded),
    '',
    ...result.notes,
    result.proof,
  ].join('\n')
}

function effectTable({ cases }: Effect): string {
  const columns = [
    left('case'),
    right('customers outside'),
    right('loss kW'),
    left('lowest'),
    left('highest'),
  ]
  return textTable(
    columns,
    Object.entries(cases).map(([id, effect]) => [
      id,
      String(effect.customersOutside),
      effect.lossKw.toFixed(1),
      extremeText(effect.lowest),
      extremeText(effect.highest),
    ]),
  )
}

function extremeText({ volts120, node, phase }: CaseEffect['lowest']): string {
  return `${volts120.toFixed(1)} V at ${node}, ${phase}`
}

function rankingTable(proposals: readonly Proposal[]): string {
  const columns = [
    right('rank'),
    left('pole'),
    left('span'),
    right('mi'),
    left('phases'),
    right('kVA'),
    right('A'),
    right('outside'),
    right('lowest V'),
    right('highest V'),
    right('loss kW'),
    right('cost USD'),
  ]
  return textTable(columns, proposals.flatMap(rankingRows))
}

/** A row for each bank; what the banks do together stands in the first. */
function rankingRows({ rank, banks, after, costUsd }: Proposal): string[][] {
  const effects = Object.values(after.cases)
  const together = [
    String(Math.max(0, ...effects.map(({ customersOutside }) => customersOutside))),
    Math.min(...effects.map(({ lowest }) => lowest.volts120)).toFixed(1),
    Math.max(...effects.map(({ highest }) => highest.volts120)).toFixed(1),
    (effects[0]?.lossKw ?? 0).toFixed(1),
    costUsd.toFixed(0),
  ]
  return banks.map(({ pole, span, distanceM, phases, ratingKva, ratingA }, index) => [
    index === 0 ? String(rank) : '',
    pole,
    span,
    miles(distanceM).toFixed(1),
    phases,
    String(ratingKva),
    String(ratingA),
    ...(index === 0 ? together : []),
  ])
}

function proposalText({ rank, banks, after, reason, flags, nearAlternatives }: Proposal): string[] {
  return [
    `${rank}. ${banks.map(({ pole }) => `pole ${pole}`).join(' and ')}: ${reason}`,
    ...banks.flatMap(bankText),
    ...indented(effectTable(after)),
    ...flags.map((flag) => `   ! ${flag}`),
    ...(nearAlternatives.length > 0
      ? [`   Nearly the same: ${listed(nearAlternatives.map((pole) => `pole ${pole}`))}.`]
      : []),
    '',
  ]
}

function bankText(bank: ProposedBank): string[] {
  const why = bank.settings ? [`   ${bank.settings.why}`] : []
  return [`   ${settingsText(bank)}`, ...why]
}

function settingsText(bank: ProposedBank): string {
  const { pole, bandCentreV, bandwidthV, delayS, ptRatio, ctPrimaryA, windingType } = bank
  const { rV = 0, xV = 0 } = bank
  const taps = Object.entries(bank.taps)
    .map(([id, byPhase]) => `${id} ${Object.values(byPhase).map(signed).join('/')}`)
    .join(', ')
  return `Pole ${pole}: taps ${taps}; type ${windingType}, band ${bandCentreV} V, ${bandwidthV} V wide, R ${rV} V, X ${xV} V, ${delayS} s, PT ${ptRatio.toFixed(1)}:1, CT ${ctPrimaryA} A.`
}

function indented(text: string): string[] {
  return text.split('\n').map((line) => `   ${line}`)
}

/** Poles by what rules them out; a pole with several reasons counts under each. */
function excludedText(excluded: readonly ExcludedPole[]): string {
  const byReason = new Map<string, string[]>()
  for (const { pole, reasons } of excluded) {
    for (const reason of reasons) {
      const kind = kindOf(reason)
      byReason.set(kind, [...(byReason.get(kind) ?? []), pole])
    }
  }
  const lines = [...byReason]
    .toSorted(([, a], [, b]) => b.length - a.length)
    .map(([reason, poles]) => `  ${String(poles.length).padStart(4)}  ${reason} (${listed(poles)})`)
  const count = `${excluded.length} pole${excluded.length === 1 ? '' : 's'}`
  return [`Ruled out: ${count}. All with their own reasons: --json.`, ...lines].join('\n')
}

/** A reason without what is in brackets and without the figures and ids that are the pole's own. */
function kindOf(reason: string): string {
  return reason.replace(/ \([^)]{0,200}\)/g, '').replace(/[\w.:-]{0,64}\d[\w.:-]{0,64}\w|\d/g, '…')
}

function listed(names: readonly string[]): string {
  const shown = names.slice(0, 5).join(', ')
  return names.length > 5 ? `${shown} and ${names.length - 5} more` : shown
}
