import { useMemo } from 'react'
import { assumedWatchedSince, yearAccount } from '#domain/avian/account/year-account.ts'
import { inspectionDue } from '#domain/avian/assessment/inspection-due.ts'
import { useFeeder } from '../../state/feeder.tsx'
import { localToday } from '../../state/today.ts'
import { type BirdRecord, useBirdRecord } from '../use-bird-record.ts'
import {
  type AccountChoices,
  accountChoices,
  type ChoiceFaults,
  detectionOf,
  NO_CHOICES,
} from './account-choices.ts'
import type { AccountSection } from './account-row.ts'
import { accountSections } from './account-sections.ts'
import type { Accounted } from './account-workings.ts'
import { useAccountView } from './show-account.ts'

export interface ShownAccount {
  readonly record: BirdRecord
  readonly accounted: Accounted
  readonly sections: readonly AccountSection[]
  readonly choices: AccountChoices
  readonly faults: ChoiceFaults
  readonly onChoose: (change: Partial<AccountChoices>) => void
  /** Years that the record knows of, newest first. */
  readonly years: readonly number[]
}

/** The account of the chosen year, from the record as it stands. */
export function useAccount(): ShownAccount {
  const record = useBirdRecord()
  const feederId = useFeeder().feeder.header.id
  const today = localToday()
  const { year } = useAccountView()
  const choices = accountChoices.use(feederId) ?? NO_CHOICES
  const { accounted, faults } = useMemo(
    () => accountOf(record, year, today, choices),
    [record, year, today, choices],
  )
  const sections = useMemo(() => accountSections(accounted), [accounted])
  const onChoose = (change: Partial<AccountChoices>) =>
    accountChoices.keep(feederId, { ...choices, ...change })
  return { record, accounted, sections, choices, faults, onChoose, years: yearsOf(record, today) }
}

function accountOf(record: BirdRecord, year: number, today: string, choices: AccountChoices) {
  const { feeder, items, assessments, settings } = record
  const { detection, faults } = detectionOf(choices)
  const isWatchedSinceAssumed = choices.watchedSince === '' || faults.watchedSince !== undefined
  const watchedSince = isWatchedSinceAssumed
    ? assumedWatchedSince(feeder.incidents, today)
    : choices.watchedSince
  const account = yearAccount({
    year,
    today,
    watchedSince,
    poles: feeder.poles.filter(({ isAnonymousNode }) => !isAnonymousNode).map(({ id }) => id),
    items,
    incidents: feeder.incidents,
    states: [...assessments.values()].map(({ state }) => state),
    inspectionsDue: items.flatMap((item) => {
      const due = inspectionDue(item, settings)
      return due ? [{ itemId: item.id, dueOn: due.dueOn }] : []
    }),
    settings,
    detection,
  })
  return { accounted: { account, detection, watchedSince, isWatchedSinceAssumed }, faults }
}

function yearsOf({ feeder, items }: BirdRecord, today: string): number[] {
  const last = Number(today.slice(0, 4))
  const known = [...feeder.incidents.map(({ foundOn }) => foundOn), ...items.map(({ on }) => on)]
  const first = known.map((date) => Number(date.slice(0, 4))).reduce((a, b) => Math.min(a, b), last)
  return Array.from({ length: last - first + 1 }, (_, back) => last - back)
}
