import { z } from 'zod'
import { personHere } from '../device/person.ts'
import { shareValue, useShared } from '../device/shared-value.ts'

export interface KeptDrafts<Draft> {
  /** @param key Names one form, as feeder and item. Null lets go of the draft. */
  readonly keep: (key: string, draft: Draft | null) => void
  readonly use: (key: string) => Draft | null
}

/**
 * Drafts of one kind of form, kept for the browser tab: neither another view nor a reload nor a
 * save by someone else loses what was typed. Each is seen by the person who typed it alone.
 *
 * @param storedAs name in the session storage
 */
export function keptDrafts<Draft>(storedAs: string, schema: z.ZodType<Draft>): KeptDrafts<Draft> {
  const drafts = shareValue(readKept(storedAs, schema))
  const ownKey = (key: string) => `${personHere.get() ?? ''} ${key}`
  return {
    keep: (key, draft) => {
      const own = ownKey(key)
      // Before drafts belonged to a person they were kept under the bare key.
      const { [own]: _, [key]: __, ...others } = drafts.get()
      const next = draft === null ? others : { ...others, [own]: draft }
      drafts.set(next)
      window.sessionStorage.setItem(storedAs, JSON.stringify(next))
    },
    use: (key) => {
      const all = useShared(drafts)
      return all[ownKey(key)] ?? all[key] ?? null
    },
  }
}

/** How many forms of this tab hold something that was typed and not saved. */
export function draftsInTab(): number {
  const names = Object.keys(window.sessionStorage).filter((name) => /draft/.test(name))
  return names.reduce((sum, name) => sum + Object.keys(readKept(name, z.unknown())).length, 0)
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
