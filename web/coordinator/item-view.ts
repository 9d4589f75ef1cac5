/** What stands open in the pole panel; it lives in the page address, so that back and reload work. */
export type ItemView =
  | { readonly open: 'new'; readonly pole: string }
  | { readonly open: 'edit' | 'history' | 'files'; readonly item: string }
  | null

/** Ids hold no "~", so that it can part them. */
export function itemViewOf(view: string | null): ItemView {
  const [open, id] = view?.split('~') ?? []
  if (!id) return null
  if (open === 'new') return { open, pole: id }
  return open === 'edit' || open === 'history' || open === 'files' ? { open, item: id } : null
}

export function addressOfItemView(view: ItemView): string | null {
  if (!view) return null
  return `${view.open}~${view.open === 'new' ? view.pole : view.item}`
}
