import type { BeforeAfter } from '#domain/avian/account/before-after.ts'
import type { Detection, DetectionFactors } from '#domain/avian/account/persistence.ts'
import type { Rate } from '#domain/avian/account/rate.ts'
import type { YearAccount } from '#domain/avian/account/year-account.ts'
import type { Working } from '../../state/working.ts'

const IN_INPUTS = '“What searches miss”, on the account.'

/** How an account came about: the figures and what was entered for it. */
export interface Accounted {
  readonly account: YearAccount
  readonly detection: Detection
  readonly watchedSince: string
  /** Nobody entered it: the first of January of the year of the first find. */
  readonly isWatchedSinceAssumed: boolean
}

export const fixed = (value: number, decimals = 3) => value.toFixed(decimals)

export function rateWorking({ account, detection }: Accounted, rate: Rate): Working {
  const { low, high } = rate.limits
  return {
    title: `Electrocutions per 1000 pole-years, ${account.year}`,
    result: `${fixed(rate.per1000, 2)} (95 %: ${fixed(low, 2)} to ${fixed(high, 2)})`,
    formula: [
      'pole-years = poles × days ÷ 365.25',
      'rate = 1000 × events ÷ (pole-years × share detected)',
      'low: the mean at which as many events or more have a chance of 2.5 %; high: as many or fewer',
    ],
    inputs: [
      { name: 'Electrocutions, confirmed and probable', value: `${rate.events} events` },
      { name: 'Poles', value: String(account.poles) },
      { name: 'Days', value: account.days ? `${account.days.from} to ${account.days.to}` : 'none' },
      { name: 'Pole-years', value: fixed(rate.poleYears, 1) },
      ...detectionInputs(account.factors, detection),
      { name: 'Upper limit, one-sided 95 %', value: fixed(rate.upperOneSided, 2) },
    ],
    source:
      'Exact limits of a Poisson count: F. Garwood, Biometrika 28 (1936) 437–442. They hold the chance in the finds, not the doubt about what searches miss, and take it that all poles were watched.',
    sureness: 'published',
    changeAt: IN_INPUTS,
  }
}

export function correctedWorking({ account, detection }: Accounted): Working {
  return {
    title: `Electrocutions corrected for what searches miss, ${account.year}`,
    result: `${fixed(account.correctedEvents, 1)} events`,
    formula: [
      'persisting = (t ÷ I) × (1 − exp(−I ÷ t)), with t = half-life ÷ ln 2',
      'share detected = persisting × search efficiency × share searched',
      'corrected = found ÷ share detected',
    ],
    inputs: [
      { name: 'Found', value: `${account.electrocutions.events} events` },
      ...detectionInputs(account.factors, detection),
    ],
    source:
      'Mean of exp(−x ÷ t) over the interval, computed; the form is that of fatality estimators, from memory. Published persistence differs widely: more than half gone in 7 days (Kemper and others 2013); 16 % of large birds gone in 90 days (Karoo, 2014).',
    sureness: 'computed',
    changeAt: IN_INPUTS,
  }
}

function detectionInputs(factors: DetectionFactors, { persistence }: Detection) {
  const shown = (share: number | null) => (share === null ? 'not given, counts as 1' : fixed(share))
  return [
    {
      name: 'Carcasses persisting',
      value: persistence
        ? `${shown(factors.persistence)} (t ${fixed(persistence.meanDays, 1)} d, I ${persistence.intervalDays} d)`
        : shown(null),
    },
    { name: 'Search efficiency', value: shown(factors.searchEfficiency) },
    { name: 'Share of poles searched', value: shown(factors.shareSearched) },
    { name: 'Share detected', value: fixed(factors.detected) },
  ]
}

export function ratioWorking(accounted: Accounted, found: BeforeAfter): Working {
  const { watchedSince, isWatchedSinceAssumed } = accounted
  const { ratio, before, after } = found
  return {
    title: 'Rate after the work against before, same poles',
    result:
      ratio?.ratio == null
        ? 'cannot be told'
        : `${fixed(ratio.ratio, 2)} (95 %: ${fixed(ratio.low, 2)} to ${ratio.high === null ? 'no upper limit' : fixed(ratio.high, 2)})`,
    formula: [
      'R = (events after ÷ pole-years after) ÷ (events before ÷ pole-years before)',
      'events after, of all events, are binomial with the share p = E₂R ÷ (E₂R + E₁)',
      'limits of p by Clopper and Pearson give limits of R = p ÷ (1 − p) × E₁ ÷ E₂',
    ],
    inputs: [
      { name: 'Poles compared', value: String(found.poles) },
      {
        name: 'Before',
        value: `${before.events} events in ${fixed(before.poleYears, 1)} pole-years`,
      },
      { name: 'After', value: `${after.events} events in ${fixed(after.poleYears, 1)} pole-years` },
      { name: 'While work was under way', value: `${found.eventsBetween} events, on neither side` },
      {
        name: 'Finds recorded since',
        value: `${watchedSince}${isWatchedSinceAssumed ? ' (assumption: year of the first find)' : ''}`,
      },
    ],
    source:
      'Exact conditional limits: J. Przyborowski and H. Wilenski, Biometrika 31 (1940) 313–323; C. J. Clopper and E. S. Pearson, Biometrika 26 (1934) 404–413.',
    sureness: 'published',
    changeAt: '“Finds are recorded since”, on the account, and the dates of the items.',
  }
}

export function powerWorking(found: BeforeAfter): Working {
  const { toShowHalving, before, after } = found
  return {
    title: 'Events that it takes to show a halving',
    result: toShowHalving
      ? `${Math.ceil(toShowHalving.before)} before and ${Math.ceil(toShowHalving.after)} after`
      : 'cannot be told: nothing was watched before or after',
    formula: [
      'N₁ = (1.960 + 0.842)² × (1 + 1 ÷ e) ÷ (4 × (1 − √R)²), N₂ = N₁ × R × e',
      'e = pole-years after ÷ pole-years before; R = 0.5; 5 % two-sided, power 80 %',
      'with equal pole-years: 46 before and 23 after',
    ],
    inputs: [
      { name: 'Pole-years before', value: fixed(before.poleYears, 1) },
      { name: 'Pole-years after', value: fixed(after.poleYears, 1) },
    ],
    source:
      'Square roots of Poisson counts have a variance of 1/4: M. S. Bartlett (1936), M. D. Huffman, Biometrics 40 (1984) 224–226. The exact test needs somewhat more.',
    sureness: 'from memory',
  }
}
