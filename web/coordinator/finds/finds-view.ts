/** What stands open on the desk of finds; it lives in the page address, so that back and reload work. */
export type FindsView =
  | { readonly open: 'new find' | 'new nest' }
  | { readonly open: 'find' | 'edit find' | 'nest' | 'edit nest'; readonly id: string }
  | null

const WORDS = {
  'new-find': 'new find',
  'new-nest': 'new nest',
  find: 'find',
  'edit-find': 'edit find',
  nest: 'nest',
  'edit-nest': 'edit nest',
} as const

/** "finds~edit-find~F-1"; ids hold no "~", so that it can part them. */
export function findsViewOf(view: string | null): FindsView {
  const [tab, word = '', id] = view?.split('~') ?? []
  if (tab !== 'finds' || !Object.hasOwn(WORDS, word)) return null
  const open = WORDS[word as keyof typeof WORDS]
  if (open === 'new find' || open === 'new nest') return { open }
  return id ? { open, id } : null
}

export function addressOfFindsView(view: FindsView): string {
  if (!view) return 'finds'
  const word = view.open.replace(' ', '-')
  return 'id' in view ? `finds~${word}~${view.id}` : `finds~${word}`
}
