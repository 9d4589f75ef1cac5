const OF_ITEM = ['edit', 'inspect', 'history', 'files'] as const

/** What stands open in the pole panel; it lives in the page address, so that back and reload work. */
export type ItemView =
  | { readonly open: 'new' | 'measure'; readonly pole: string }
  | { readonly open: (typeof OF_ITEM)[number]; readonly item: string }
  | null

/** Ids hold no "~", so that it can part them. */
export function itemViewOf(view: string | null): ItemView {
  const [open, id] = view?.split('~') ?? []
  if (!id) return null
  if (open === 'new' || open === 'measure') return { open, pole: id }
  const ofItem = OF_ITEM.find((known) => known === open)
  return ofItem ? { open: ofItem, item: id } : null
}

export function addressOfItemView(view: ItemView): string | null {
  if (!view) return null
  return `${view.open}~${'pole' in view ? view.pole : view.item}`
}
