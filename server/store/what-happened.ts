import type { HistoryEntry } from '../services/ports.ts'

/** What a change was, told from the thing before and after it. */
export function whatHappened(before: unknown, after: unknown): HistoryEntry['what'] {
  if (before === null) return 'added'
  if (after === null) return 'purged'
  if (isDeleted(before) === isDeleted(after)) return 'changed'
  return isDeleted(after) ? 'deleted' : 'restored'
}

function isDeleted(thing: unknown): boolean {
  const { deletedAt } = thing as { deletedAt?: string | null }
  return typeof deletedAt === 'string'
}
