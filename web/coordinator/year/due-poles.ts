import type { ListedPole } from '../list/listed-pole.ts'

/** Most poles of one job. */
export const MOST_POLES = 60

export interface DueLook {
  readonly pole: string
  /** The earliest of its items. */
  readonly dueOn: string
}

export interface DueLooks {
  /** In no open job, the longest due first. */
  readonly free: readonly DueLook[]
  /** How many stand in an open job already. */
  readonly handed: number
}

/** @param today calendar date; what is due then or before counts */
export function dueLooks(
  listed: readonly Pick<ListedPole, 'pole' | 'dueOn'>[],
  jobs: ReadonlyMap<string, unknown>,
  today: string,
): DueLooks {
  const due = listed.flatMap(({ pole, dueOn: [first] }) =>
    first !== undefined && first <= today ? [{ pole: pole.id, dueOn: first }] : [],
  )
  const free = due.filter(({ pole }) => !jobs.has(pole))
  return {
    free: free.sort((a, b) => a.dueOn.localeCompare(b.dueOn)),
    handed: due.length - free.length,
  }
}
