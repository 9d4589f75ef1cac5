import { z } from 'zod'
import type { Detection } from '#domain/avian/account/persistence.ts'
import { meanDaysOfHalfLife } from '#domain/avian/account/persistence.ts'
import { IsoDate } from '#domain/feeder/identifiers.ts'
import { keptDrafts } from '../../record/kept-drafts.ts'

/** What a person has entered for the account of a feeder, as text; empty fields correct nothing. */
export const AccountChoices = z.object({
  /** First day from which finds are recorded; empty for the assumed one. */
  watchedSince: z.string(),
  halfLifeDays: z.string(),
  intervalDays: z.string(),
  efficiencyPercent: z.string(),
  searchedPercent: z.string(),
})
export type AccountChoices = z.infer<typeof AccountChoices>

export const NO_CHOICES: AccountChoices = {
  watchedSince: '',
  halfLifeDays: '',
  intervalDays: '',
  efficiencyPercent: '',
  searchedPercent: '',
}

/** Kept for the browser tab, by feeder. */
export const accountChoices = keptDrafts('crossarm.account-choices', AccountChoices)

export type ChoiceFaults = Partial<Record<keyof AccountChoices, string>>

const MOST_DAYS = 3650

/** What is entered as it counts, and what of it cannot count, with what to do. */
export function detectionOf(choices: AccountChoices): {
  detection: Detection
  faults: ChoiceFaults
} {
  const halfLife = daysOf(choices.halfLifeDays)
  const interval = daysOf(choices.intervalDays)
  const efficiency = shareOf(choices.efficiencyPercent)
  const searched = shareOf(choices.searchedPercent)
  const faults: ChoiceFaults = {
    ...(halfLife === 'fault' && { halfLifeDays: `Give days, above 0 and at most ${MOST_DAYS}.` }),
    ...(interval === 'fault' && { intervalDays: `Give days, above 0 and at most ${MOST_DAYS}.` }),
    ...(halfLife === null && interval !== null && { halfLifeDays: 'Give both, or neither.' }),
    ...(interval === null && halfLife !== null && { intervalDays: 'Give both, or neither.' }),
    ...(efficiency === 'fault' && { efficiencyPercent: 'Give percent, above 0 and at most 100.' }),
    ...(searched === 'fault' && { searchedPercent: 'Give percent, above 0 and at most 100.' }),
    ...(!isDateOrEmpty(choices.watchedSince) && { watchedSince: 'Give a date, as 2020-01-01.' }),
  }
  const detection: Detection = {
    ...(typeof halfLife === 'number' &&
      typeof interval === 'number' && {
        persistence: { meanDays: meanDaysOfHalfLife(halfLife), intervalDays: interval },
      }),
    ...(typeof efficiency === 'number' && { searchEfficiency: efficiency }),
    ...(typeof searched === 'number' && { shareSearched: searched }),
  }
  return { detection, faults }
}

function isDateOrEmpty(text: string): boolean {
  return text === '' || IsoDate.safeParse(text).success
}

function daysOf(text: string): number | 'fault' | null {
  return boundedOf(text, MOST_DAYS)
}

function shareOf(text: string): number | 'fault' | null {
  const percent = boundedOf(text, 100)
  return typeof percent === 'number' ? percent / 100 : percent
}

function boundedOf(text: string, most: number): number | 'fault' | null {
  if (text.trim() === '') return null
  const given = Number(text.replace(',', '.'))
  return given > 0 && given <= most ? given : 'fault'
}
