import { useFeeder } from '../state/feeder.tsx'
import { useSelection } from '../state/selection.ts'
import { createStore, useStore } from '../state/store.ts'
import { defaultChoices, type SuggestChoices } from './suggest-choices.ts'

/** What was typed, by feeder and units, so that leaving the form loses nothing. */
const typed = createStore<Readonly<Record<string, SuggestChoices>>>({})

export function useSuggestChoices(): [SuggestChoices, (next: SuggestChoices) => void] {
  const { header } = useFeeder().feeder
  const { units } = useSelection()
  const key = `${header.id} ${units}`
  const kept = useStore(typed)[key]
  const keep = (next: SuggestChoices) => typed.set({ ...typed.get(), [key]: next })
  return [kept ?? defaultChoices(header.limits, units), keep]
}
