import type { RegulatorBank } from '#domain/electrical/regulator-bank.ts'
import { volts120OfPu } from '#domain/units/voltage-base.ts'
import { type BankSize, sizeBank } from './bank-sizing.ts'
import type { Distinct } from './distinct.ts'
import { effectOf } from './effect.ts'
import type { BankReport, Examined, WorseStepping } from './examine-placement.ts'
import { bankFlags, placementFlags } from './flags.ts'
import type { Site } from './placement.ts'
import { energyLossKwhPerYear, presentWorthOfLosses } from './present-worth.ts'
import { reasonFor } from './reason.ts'
import type { Screen } from './screen.ts'
import { settingsReason } from './settings/settings-reason.ts'
import type { Settled } from './settings/settle-banks.ts'
import type { ChosenSettings } from './settings/work-out-settings.ts'
import type { Proposal, ProposedBank } from './site-result.ts'
import { type Study, worthOf } from './study.ts'

/** A placement as it is proposed: examined with its settings, and what stands beside it. */
export interface SettledPlacement extends Settled, Pick<Distinct, 'nearAlternatives'> {
  readonly stepping: readonly WorseStepping[]
}

/** A proposal with everything that a planner needs to judge it. */
export function buildProposal(
  study: Study,
  screen: Pick<Screen, 'screened' | 'cautions'>,
  { examined, nearAlternatives, settings, stepping }: SettledPlacement,
  rank: number,
): Proposal {
  const screened = new Map(screen.screened.map((pole) => [pole.pole, pole]))
  const { feeder, request } = study
  const parts = examined.sites.map((site, index) => {
    const reports = examined.reports[index] ?? []
    const size = sizeBank(site, reports, request, feeder.header.growthPctPerYear)
    const bank = {
      ...proposedBank(site, examined.banks[index], reports, size, study),
      ...settingsOf(study, settings[index]),
    }
    const cautions = screen.cautions.get(site.candidate.poleId) ?? []
    return {
      bank,
      flags: [...bankFlags(study, site, bank.delayS, reports, cautions), ...size.flags],
    }
  })
  const label = (pole: string, flag: string) => (parts.length > 1 ? `${pole}: ${flag}` : flag)
  return {
    rank,
    banks: parts.map((part) => part.bank),
    after: effectOf(study, examined.trial),
    reason: reasonFor(study, examined, screened),
    flags: [
      ...placementFlags(study, examined, stepping),
      ...parts.flatMap(({ bank, flags }) => flags.map((flag) => label(bank.pole, flag))),
    ],
    marginVolts120: volts120OfPu(examined.trial.marginPu),
    ...moneyOf(study, examined),
    nearAlternatives: [...nearAlternatives],
  }
}

function proposedBank(
  site: Site,
  bank: RegulatorBank | undefined,
  reports: readonly BankReport[],
  size: BankSize,
  study: Study,
): ProposedBank {
  if (!bank) throw new Error(`Expected a bank on span "${site.candidate.spanId}".`)
  const { settings } = bank
  return {
    pole: site.candidate.poleId,
    span: site.candidate.spanId,
    phases: site.candidate.phases,
    ratingKva: size.ratingKva,
    ratingA: size.ratingA,
    peakA: size.peakA,
    distanceM: site.candidate.distanceM,
    bandCentreV: settings.bandCentreV,
    bandwidthV: settings.bandwidthV,
    delayS: settings.delayS,
    windingType: settings.windingType,
    ptRatio: settings.ptRatio,
    ctPrimaryA: size.ctPrimaryA,
    rV: settings.rV,
    xV: settings.xV,
    taps: Object.fromEntries(
      study.cases.map((loadCase, index) => [loadCase.id, reports[index]?.taps ?? {}]),
    ),
  }
}

function settingsOf(study: Study, chosen: ChosenSettings | null | undefined) {
  return chosen ? { settings: settingsReason(study, chosen) } : {}
}

function moneyOf(study: Study, { sites, trial }: Examined) {
  const { before, cases, feeder, request } = study
  const { discountRatePct, energyUsdPerKwh, studyYears } = request.money
  const kwh = (losses: Study['before']) =>
    energyLossKwhPerYear(
      cases,
      losses.cases.map((solved) => solved.lossKw),
    )
  const savedUsd = (kwh(before) - kwh(trial)) * energyUsdPerKwh
  const costUsd = worthOf(study, sites).bankUsd
  const growth = feeder.header.growthPctPerYear
  return {
    energyLossKwhPerYear: kwh(trial),
    lossSavedUsdPerYear: savedUsd,
    costUsd,
    presentWorthUsd: costUsd - savedUsd * presentWorthOfLosses(studyYears, discountRatePct, growth),
  }
}
