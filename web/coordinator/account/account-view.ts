export interface AccountView {
  readonly year: number
  /** The page to print stands in place of the desk. */
  readonly isReport: boolean
}

/** "account~2025~report": year and page, in the page address. */
export function accountViewOf(view: string | null, today: string): AccountView {
  const [, year, page] = view?.split('~') ?? []
  const given = /^\d{4}$/.test(year ?? '') ? Number(year) : Number(today.slice(0, 4))
  return { year: given, isReport: page === 'report' }
}

export function addressOfAccountView({ year, isReport }: AccountView): string {
  return `account~${year}${isReport ? '~report' : ''}`
}
