import { z } from 'zod'
import { shareValue, useShared } from '../device/shared-value.ts'

export interface KeptDrafts<Draft> {
  /** @param key Names one form, as feeder and item. Null lets go of the draft. */
  readonly keep: (key: string, draft: Draft | null) => void
  readonly use: (key: string) => Draft | null
}

/**
 * Drafts of one kind of form, kept for the browser tab: neither another view nor a reload nor a
 * save by someone else loses what was typed.
 *
 * @param storedAs name in the session storage
 */
export function keptDrafts<Draft>(storedAs: string, schema: z.ZodType<Draft>): KeptDrafts<Draft> {
  const drafts = shareValue(readKept(storedAs, schema))
  return {
    keep: (key, draft) => {
      const { [key]: _, ...others } = drafts.get()
      const next = draft === null ? others : { ...others, [key]: draft }
      drafts.set(next)
      window.sessionStorage.setItem(storedAs, JSON.stringify(next))
    },
    use: (key) => useShared(drafts)[key] ?? null,
  }
}

/** What was kept before a reload; what no longer fits the form is let go. */
function readKept<Draft>(
  storedAs: string,
  schema: z.ZodType<Draft>,
): Readonly<Record<string, Draft>> {
  try {
    const kept: unknown = JSON.parse(window.sessionStorage.getItem(storedAs) ?? '{}')
    return z.record(z.string(), schema).parse(kept)
  } catch {
    return {}
  }
}
