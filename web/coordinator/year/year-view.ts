/** Which kept programme stands open on the year's page: "year~<id>"; ids hold no "~". */
export function programmeIdOf(view: string | null): string | null {
  const [tab, id] = view?.split('~') ?? []
  return tab === 'year' && id ? id : null
}

export const viewOfProgramme = (id: string | null): string => (id === null ? 'year' : `year~${id}`)
