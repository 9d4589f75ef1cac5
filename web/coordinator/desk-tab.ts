export const DESK_TABS = [
  { id: 'poles', name: 'Poles' },
  { id: 'year', name: 'Year' },
  { id: 'finds', name: 'Finds' },
  { id: 'account', name: 'Account' },
  { id: 'settings', name: 'Settings' },
] as const
export type DeskTab = (typeof DESK_TABS)[number]['id']

/** The tab that a view of the address belongs to; what stands open on it may follow after "~". */
export function deskTabOf(view: string | null): DeskTab {
  const [first] = view?.split('~') ?? []
  // Jobs come from the year's work.
  if (first === 'job') return 'year'
  return DESK_TABS.find(({ id }) => id === first)?.id ?? 'poles'
}

/** The default tab stands in no address. */
export function viewOfTab(tab: DeskTab): string | null {
  return tab === 'poles' ? null : tab
}
