/** What one factor says of one pole. */
export interface Clue {
  /** 0 to 1; null where nothing is recorded that would tell. */
  readonly value: number | null
  /** In a sentence; empty where there is nothing to say. */
  readonly reason: string
}

export const NOT_KNOWN: Clue = { value: null, reason: '' }
export const NOTHING_THERE: Clue = { value: 0, reason: '' }

/** 1 at no distance, evenly down to 0 at the reach. */
export function nearness(distanceM: number, reachM: number): number {
  return Math.max(0, 1 - distanceM / reachM)
}
