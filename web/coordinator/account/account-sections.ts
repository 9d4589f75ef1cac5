import type { YearAccount } from '#domain/avian/account/year-account.ts'
import { counted } from '../../state/format.ts'
import { STEP_WORDS } from '../finds/find-words.ts'
import type { AccountRow, AccountSection } from './account-row.ts'
import {
  type Accounted,
  correctedWorking,
  powerWorking,
  rateWorking,
  ratioWorking,
} from './account-workings.ts'

/** The whole account as figures in words, section by section. */
export function accountSections(accounted: Accounted): AccountSection[] {
  const { account } = accounted
  return [
    workSection(account),
    findsSection(account),
    followUpSection(account),
    rateSection(accounted),
    beforeAfterSection(accounted),
  ]
}

const count = (what: string, value: number, unit: string, note?: string): AccountRow => ({
  what,
  value,
  unit,
  ...(note && { note }),
})

function workSection(account: YearAccount): AccountSection {
  const { done, spend, inspections } = account
  return {
    title: `Work in ${account.year}`,
    rows: [
      count('Poles on which something was put up', account.polesDone, 'poles'),
      ...done.map(({ what, items, poles }) =>
        count(`${firstCapital(what)}`, poles, 'poles', counted(items, 'item')),
      ),
      {
        what: 'Spent on what was put up',
        value: spend.usd,
        unit: 'USD',
        note: costNote(spend),
      },
      count('Inspections written down', inspections.done, 'items'),
      count('Inspections overdue today', inspections.overdue, 'items'),
      count('Items failed, as they stand today', account.failedItems, 'items'),
      ...account.statesToday.map(({ state, poles }) =>
        count(`Poles ${state}, as they stand today`, poles, 'poles'),
      ),
    ],
    cautions: [
      'States follow from geometry and condition as the record has them today, not at the end of the year.',
      'Covers protect birds from brief contact. They are no insulation for people.',
    ],
  }
}

function costNote({ items, withoutCost }: YearAccount['spend']): string {
  if (items === 0) return 'Nothing was put up.'
  return withoutCost > 0
    ? `${withoutCost} of ${counted(items, 'item')} have no cost in the record and count as 0.`
    : `${counted(items, 'item')}, each with its recorded cost.`
}

function findsSection({
  year,
  finds,
  electrocutions,
  byCause,
  bySpecies,
}: YearAccount): AccountSection {
  const row = (what: string, events: number, birds: number) =>
    count(what, events, 'events', counted(birds, 'bird'))
  return {
    title: `Birds found in ${year}`,
    rows: [
      row('All finds', finds.events, finds.birds),
      row('Electrocutions, confirmed and probable', electrocutions.events, electrocutions.birds),
      ...byCause.map(({ what, events, birds }) => row(`Cause: ${what}`, events, birds)),
      ...bySpecies.map(({ what, events, birds }) => row(`Species: ${what}`, events, birds)),
    ],
    cautions: [
      'Birds and events are counted apart: one event may kill more than one bird.',
      'About 94 % of electrocutions gave no outage (Kemper and others 2013), so outage records miss most.',
      'Of carcasses found at monthly searches the cause of more than 40 % stayed unknown (Lehman and others 2010).',
    ],
  }
}

function followUpSection({ year, followUp, overdueFromEarlier }: YearAccount): AccountSection {
  return {
    title: `Follow-up of finds of ${year}`,
    rows: [
      ...followUp.flatMap(({ step, kept, late, overdue, waiting }) => {
        const all = kept + late + overdue + waiting
        if (all === 0) return []
        return [
          count(
            `${firstCapital(STEP_WORDS[step])}: done in time`,
            kept,
            `of ${all}`,
            `${late} late, ${overdue} overdue, ${waiting} still to come`,
          ),
        ]
      }),
      count('Overdue steps of finds of earlier years', overdueFromEarlier, 'steps'),
    ],
    cautions: [
      'Dates are those of the record; where none is written, those of the bird settings, else assumptions: no published limits were found.',
    ],
  }
}

function rateSection(accounted: Accounted): AccountSection {
  const { account } = accounted
  const { rate, factors } = account
  const rows: AccountRow[] = [
    { what: 'Watched', value: account.poleYears, decimals: 1, unit: 'pole-years' },
    rate
      ? {
          what: 'Electrocutions per 1000 pole-years',
          value: rate.per1000,
          decimals: 2,
          unit: 'events',
          limits: rate.limits,
          working: rateWorking(accounted, rate),
          ...(rate.events > 0 &&
            factors.detected < 1 && {
              note: `Corrected: ${(factors.detected * 100).toFixed(0)} % are found, by what was entered below.`,
            }),
          ...(rate.events === 0 && {
            note: `None found is not none killed: up to 3.689 events (two-sided; 2.996 one-sided) agree with it, ${rate.limits.high.toFixed(2)} (${rate.upperOneSided.toFixed(2)}) per 1000 pole-years.`,
          }),
        }
      : {
          what: 'Electrocutions per 1000 pole-years',
          value: null,
          unit: 'events',
          note: 'The year has not begun, or no pole was watched.',
        },
    {
      what: 'Electrocutions, corrected for what searches miss',
      value: account.correctedEvents,
      decimals: 1,
      unit: 'events',
      working: correctedWorking(accounted),
      note:
        factors.detected === 1
          ? 'Nothing was entered on what searches miss: the true number is at least this.'
          : `${(factors.detected * 100).toFixed(0)} % of them are found, by what was entered.`,
    },
  ]
  return {
    title: 'Rate',
    rows,
    cautions: [
      'Finds that came by chance have no denominator: the rate takes it that every pole was watched all the time.',
      'Small counts swing from year to year; a pole or a year picked for its high count will look better next time by itself.',
      'Limits hold chance alone, not the doubt about what searches miss.',
    ],
  }
}

function beforeAfterSection(accounted: Accounted): AccountSection {
  const found = accounted.account.beforeAfter
  const { before, after, ratio, toShowHalving } = found
  const isTooFew = toShowHalving !== null && before.events < toShowHalving.before
  return {
    title: 'Before and after the work, same poles',
    rows: [
      count('Poles compared', found.poles, 'poles', undatedNote(found.undatedPoles)),
      watchedRow('Before the first item', before),
      watchedRow('After the last item', after),
      {
        what: 'Rate after ÷ rate before',
        value: ratio?.ratio ?? null,
        decimals: 2,
        unit: '',
        ...(ratio && { limits: { low: ratio.low, high: ratio.high } }),
        working: ratioWorking(accounted, found),
        note: ratioNote(found),
      },
      ...(toShowHalving
        ? [
            {
              what: 'Events before that it takes to show a halving',
              value: Math.ceil(toShowHalving.before),
              unit: 'events',
              working: powerWorking(found),
              note: isTooFew
                ? `Too few so far: ${before.events} before. No conclusion either way.`
                : `${before.events} before.`,
            },
          ]
        : []),
    ],
    cautions: [
      'Poles that were worked on are the worst ones, so they are held against themselves and never against the others.',
      'Poles chosen because a bird died there have had their worst days: their count falls somewhat even without the work.',
    ],
  }
}

function watchedRow(
  what: string,
  { events, poleYears }: { readonly events: number; readonly poleYears: number },
): AccountRow {
  return count(`${what}: electrocutions`, events, 'events', `in ${poleYears.toFixed(1)} pole-years`)
}

function undatedNote(poles: number): string | undefined {
  return poles === 0
    ? undefined
    : `${poles} left out: the record says when their items failed or were taken down, not when they went up.`
}

function ratioNote({ ratio, before, after }: Accounted['account']['beforeAfter']): string {
  if (before.poleYears === 0 || after.poleYears === 0) {
    return 'Cannot be told: no pole was watched both before and after.'
  }
  if (!ratio) return 'Cannot be told: no electrocution before or after. That is no proof of safety.'
  if (ratio.high === null) return 'Nothing was found before, so no improvement can show.'
  if (ratio.high < 1) return 'Lower after the work, beyond chance.'
  return ratio.low > 1
    ? 'Higher after the work, beyond chance.'
    : 'Chance alone could explain it: the limits hold 1.'
}

const firstCapital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1)
