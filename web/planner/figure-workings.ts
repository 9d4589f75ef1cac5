import type { SiteRequest } from '#domain/siting/site-request.ts'
import type { CaseEffect, Proposal, ProposedBank } from '#domain/siting/site-result.ts'
import type { FeederModel } from '../state/feeder-model.ts'
import { thousands, usd } from '../state/format.ts'
import type { Working } from '../state/working.ts'

/** Where the planner changes what a study assumes. */
const IN_CHOICES = 'Choices of “Suggest a pole”, before the next study.'

export function outsideWorking(model: FeederModel, effect: CaseEffect): Working {
  const { limits } = model.feeder.header
  const what = model.customers > 0 ? 'customers' : 'loads'
  return {
    title: `${what} outside limits`,
    result: `${effect.customersOutside} ${what}`,
    formula: [
      `outside = sum of the ${what} of whose phases one is below the low or above the high limit`,
    ],
    inputs: [
      { name: 'Low limit, primary', value: `${limits.lowVolts120} V` },
      { name: 'High limit, primary', value: `${limits.highVolts120} V` },
      { name: 'Lowest', value: `${effect.lowest.volts120.toFixed(2)} V at ${effect.lowest.node}` },
      {
        name: 'Highest',
        value: `${effect.highest.volts120.toFixed(2)} V at ${effect.highest.node}`,
      },
      {
        name: `All ${what} of the feeder`,
        value: String(model.customers || model.feeder.loads.length),
      },
    ],
    source:
      'Limits of the feeder; 118 to 126 V on the primary is the usual 8 V rule, which leaves room for the drop to the meter. At the service ANSI C84.1 gives 114 to 126 V (Range A) and 110 to 127 V (Range B), from memory.',
    sureness: 'common practice, no source',
    changeAt: 'Limits come with the layers of the feeder; a study can use others.',
  }
}

export function lossWorking(model: FeederModel, effect: CaseEffect, caseId: string): Working {
  const { cases } = model.feeder.header
  const loadCase = cases.find(({ id }) => id === caseId)
  return {
    title: `loss in “${loadCase?.name ?? caseId}”`,
    result: `${effect.lossKw.toFixed(2)} kW`,
    formula: [
      'loss = power in at the source − power taken by the loads',
      '= sum over spans of Re(V · I*) in less out',
    ],
    inputs: [
      { name: 'Hours of the year in this case', value: thousands(loadCase?.hoursPerYear ?? 0) },
      {
        name: 'Energy lost in them',
        value: `${thousands(effect.lossKw * (loadCase?.hoursPerYear ?? 0))} kWh`,
      },
    ],
    source: 'Power flow of this case; primary line only, without service transformers and drops.',
    sureness: 'computed',
    changeAt: 'Loads, line types and hours come with the layers of the feeder.',
  }
}

export function savingWorking(proposal: Proposal, request: SiteRequest): Working {
  const { money } = request
  return {
    title: 'losses saved in a year',
    result: `${usd(proposal.lossSavedUsdPerYear)} a year`,
    formula: [
      'saved = (energy lost before − energy lost after) × price of energy',
      'energy lost = Σ over cases of loss × hours',
    ],
    inputs: [
      {
        name: 'Energy lost after',
        value: `${thousands(proposal.energyLossKwhPerYear)} kWh a year`,
      },
      { name: 'Price of energy', value: `$${money.energyUsdPerKwh} per kWh` },
    ],
    source:
      'Power flow of every case. A raised voltage draws more from loads that are not constant power, so a bank can cost losses: then the figure is negative.',
    sureness: 'assumption',
    changeAt: IN_CHOICES,
  }
}

export function costWorking(proposal: Proposal, request: SiteRequest): Working {
  const { money } = request
  const units = proposal.banks.reduce((sum, { phases }) => sum + phases.length, 0)
  const roomUsd = proposal.costUsd - proposal.banks.length * money.bankUsd - units * money.unitUsd
  return {
    title: 'installed cost',
    result: usd(proposal.costUsd),
    formula: [
      'cost = banks × cost per bank + units × cost per unit + room made on the pole',
      'net present cost = cost − present worth of the losses saved',
    ],
    inputs: [
      { name: 'Banks', value: `${proposal.banks.length} × ${usd(money.bankUsd)}` },
      { name: 'Single-phase units', value: `${units} × ${usd(money.unitUsd)}` },
      ...(roomUsd > 0 ? [{ name: 'Moving service transformers', value: usd(roomUsd) }] : []),
      { name: 'Years of study', value: String(money.studyYears) },
      { name: 'Discount rate', value: `${money.discountRatePct} %` },
      { name: 'Net present cost', value: usd(proposal.presentWorthUsd) },
    ],
    source: 'Every cost is an assumption to be replaced by the utility’s own.',
    sureness: 'assumption',
    changeAt: IN_CHOICES,
  }
}

export function ratingWorking(bank: ProposedBank, request: SiteRequest): Working {
  return {
    title: `size of the bank at pole ${bank.pole}`,
    result: `${bank.ratingKva} kVA a unit, ${bank.ratingA} A`,
    formula: [
      'needed current = highest current of any phase in any case × (1 + margin)',
      'size = next standard unit above',
    ],
    inputs: [
      { name: 'Highest current', value: `${bank.peakA.toFixed(1)} A` },
      { name: 'Margin', value: `${request.ratingMarginPct} %` },
      {
        name: 'Needed',
        value: `${(bank.peakA * (1 + request.ratingMarginPct / 100)).toFixed(1)} A`,
      },
      { name: 'Standard unit', value: `${bank.ratingA} A` },
    ],
    source:
      'Preferred ratings of IEEE C57.15, from memory: check against the standard before a purchase.',
    sureness: 'from memory',
    changeAt: IN_CHOICES,
  }
}
