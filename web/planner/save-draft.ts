import { createStore, useStore } from '../state/store.ts'

export interface SaveDraft {
  readonly isOpen: boolean
  /** Null as long as the suggested name stands. */
  readonly name: string | null
  readonly note: string
}

const NONE: SaveDraft = { isOpen: false, name: null, note: '' }

/** What was typed, by proposal, so that looking elsewhere loses nothing. */
const drafts = createStore<Readonly<Record<string, SaveDraft>>>({})

export function useSaveDraft(key: string) {
  const draft = useStore(drafts)[key] ?? NONE
  return {
    ...draft,
    change: (part: Partial<SaveDraft>) =>
      drafts.set({ ...drafts.get(), [key]: { ...draft, ...part } }),
    clear: () => drafts.set({ ...drafts.get(), [key]: NONE }),
  }
}
