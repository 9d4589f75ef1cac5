import { shareValue, useShared } from '../device/shared-value.ts'
import { useFeeder } from '../state/feeder.tsx'
import { useSelection } from '../state/selection.ts'
import { defaultChoices, type SuggestChoices } from './suggest-choices.ts'

/** What was typed, by feeder and units, so that leaving the form loses nothing. */
const typed = shareValue<Readonly<Record<string, SuggestChoices>>>({})

export function useSuggestChoices(): [SuggestChoices, (next: SuggestChoices) => void] {
  const { header } = useFeeder().feeder
  const { units } = useSelection()
  const key = `${header.id} ${units}`
  const kept = useShared(typed)[key]
  const keep = (next: SuggestChoices) => typed.set({ ...typed.get(), [key]: next })
  return [kept ?? defaultChoices(header.limits, units), keep]
}
