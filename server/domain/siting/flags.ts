import type { Pole } from '#domain/feeder/pole.ts'
import { BASE_VOLTS120 } from '#domain/units/voltage-base.ts'
import type { BankReport, Examined, WorseStepping } from './examine-placement.ts'
import { placeOfSlot } from './limit-judge.ts'
import { DELAY_STEP_S, isBeyond, type Site, standingAround } from './placement.ts'
import type { Study } from './study.ts'
import { bypassedBanks } from './try-returning.ts'

/** A voltage nearer to a limit than this is flagged, on the 120 V base. */
const THIN_MARGIN_V = 0.5
/** Voltages that differ by less are the same for a caution. */
const SAME_V = 0.05
/** More line banks than this in series hunt and cost too much (from memory). */
const MOST_IN_SERIES = 3

/** Warnings on a placement as a whole. */
export function placementFlags(
  study: Study,
  examined: Examined,
  worseStepping: readonly WorseStepping[],
): string[] {
  return [...thinMargins(study, examined), ...steppingFlags(study, worseStepping)]
}

/** A thin margin that is as thin without the bank is no caution about the bank. */
function thinMargins({ before, cases, limits, network }: Study, { trial }: Examined): string[] {
  return trial.cases.flatMap((solved, index) => {
    const standing = before.cases[index]
    const name = cases[index]?.name ?? ''
    const highV = solved.highestPu * BASE_VOLTS120
    const lowV = solved.lowestPu * BASE_VOLTS120
    const at = (slot: number) => {
      const { node, phase } = placeOfSlot(network, slot)
      return `pole ${node}, phase ${phase}, ${name}`
    }
    const flags: string[] = []
    if (isThin(limits.highVolts120 - highV) && isMoved(solved.highestPu, standing?.highestPu)) {
      flags.push(`${highV.toFixed(1)} V at ${at(solved.highestSlot)}: close to the high limit.`)
    }
    if (isThin(lowV - limits.lowVolts120) && isMoved(solved.lowestPu, standing?.lowestPu)) {
      flags.push(`${lowV.toFixed(1)} V at ${at(solved.lowestSlot)}: close to the low limit.`)
    }
    return flags
  })
}

function isMoved(pu: number, standingPu: number | undefined): boolean {
  return standingPu === undefined || Math.abs(pu - standingPu) * BASE_VOLTS120 > SAME_V
}

function isThin(marginV: number): boolean {
  return marginV >= 0 && marginV < THIN_MARGIN_V
}

function steppingFlags(
  { cases, judge, request }: Study,
  worseStepping: readonly WorseStepping[],
): string[] {
  const what = judge.countsCustomers ? 'customers' : 'load points'
  // Where settings were worked out, a higher centre was tried and refused.
  const hint = request.compensation === 'none' ? '; a higher band centre would help' : ''
  return worseStepping.map(({ caseId, outside }) => {
    const name = cases.find((loadCase) => loadCase.id === caseId)?.name ?? caseId
    return Number.isNaN(outside)
      ? `Stepping from neutral the taps do not settle in ${name}.`
      : `Where the taps step up from neutral and stop at the edge of the band, ${outside} ${what} stay outside in ${name}${hint}.`
  })
}

/** Warnings on one bank. */
export function bankFlags(
  study: Study,
  site: Site,
  delayS: number,
  reports: readonly BankReport[],
  cautions: readonly string[],
): string[] {
  return [
    ...reports.flatMap((report) => caseFlags(study, report)),
    ...neighbourFlags(study, site, delayS),
    ...bypassedFlags(study, site),
    ...poleFlags(study.feeder.poles.find((pole) => pole.id === site.candidate.poleId)),
    ...cautions,
  ]
}

function caseFlags({ cases, limits }: Study, report: BankReport): string[] {
  const name = cases.find((loadCase) => loadCase.id === report.caseId)?.name ?? report.caseId
  const flags: string[] = []
  const { atLimit, highestOutputV, powerKw, taps } = report
  if (atLimit.length > 0) {
    const positions = atLimit.map((phase) => `${phase} ${signed(taps[phase] ?? 0)}`).join(', ')
    flags.push(`At the end of its range in ${name}: ${positions}.`)
  }
  if (highestOutputV > limits.highVolts120) {
    flags.push(
      `Output of ${highestOutputV.toFixed(1)} V in ${name}, above the high limit right behind the bank.`,
    )
  }
  if (powerKw < 0) {
    const kw = Math.abs(powerKw).toFixed(0)
    flags.push(
      `${kw} kW flow back toward the source in ${name}: choose a control mode for generation behind the bank.`,
    )
  }
  return flags
}

export function signed(tap: number): string {
  return tap > 0 ? `+${tap}` : `${tap}`.replace('-', '−')
}

function neighbourFlags({ network }: Study, site: Site, delayS: number): string[] {
  const { above, below } = standingAround(network, site.branch)
  const hurried = below.filter((other) => other.settings.delayS < delayS + DELAY_STEP_S)
  const flags = hurried.map(
    (other) =>
      `Bank ${other.id} beyond it must wait at least ${delayS + DELAY_STEP_S} s; it is set to ${other.settings.delayS} s.`,
  )
  if (above.length + below.length >= MOST_IN_SERIES) {
    flags.push(`${above.length + below.length + 1} line banks would stand in series.`)
  }
  return flags
}

function bypassedFlags({ feeder, network }: Study, site: Site): string[] {
  return bypassedBanks(feeder).flatMap((bank) => {
    const branch = network.spanFirstBranch[network.spanIds.indexOf(bank.span)] ?? -1
    const isInLine =
      branch >= 0 &&
      (isBeyond(network, branch, site.branch) || isBeyond(network, site.branch, branch))
    if (!isInLine) return []
    return [
      `The bank at pole ${bank.pole} (${bank.name ?? bank.id}), in the same line, stands bypassed: before it is returned to service, settings and delays of both have to be worked out again.`,
    ]
  })
}

function poleFlags(pole: Pole | undefined): string[] {
  if (!pole || pole.isAnonymousNode) return []
  const missing = [
    ...(pole.heightM === undefined ? ['length'] : []),
    ...(pole.poleClass === undefined ? ['class'] : []),
  ]
  return missing.length > 0
    ? [`Not recorded for the pole: ${missing.join(' and ')}. Check it first.`]
    : []
}
