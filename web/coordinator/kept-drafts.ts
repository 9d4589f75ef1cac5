import { z } from 'zod'
import { createStore, useStore } from '../state/store.ts'
import { ItemDraft } from './item-draft.ts'

const STORED = 'crossarm.item-drafts'
const Drafts = z.record(z.string(), ItemDraft)

/** Drafts by key, kept for the browser tab: neither another pole nor a reload loses what was typed. */
const drafts = createStore(readKept())

function readKept(): Readonly<Record<string, ItemDraft>> {
  try {
    return Drafts.parse(JSON.parse(window.sessionStorage.getItem(STORED) ?? '{}'))
  } catch {
    return {}
  }
}

/** @param key Names one form, as feeder and item. Null lets go of the draft. */
export function keepDraft(key: string, draft: ItemDraft | null): void {
  const { [key]: _, ...others } = drafts.get()
  const next = draft ? { ...others, [key]: draft } : others
  drafts.set(next)
  window.sessionStorage.setItem(STORED, JSON.stringify(next))
}

export function useKeptDraft(key: string): ItemDraft | null {
  return useStore(drafts)[key] ?? null
}
