import type { InvalidateQueryFilters, QueryClient } from '@tanstack/react-query'

/**
 * Marks what was fetched as stale and fetches what is looked at again. A first fetch that is still
 * under way may have been answered before the change, and the library lets it stand for the new one:
 * what it brings is asked for once more.
 */
export async function askAgain(
  client: QueryClient,
  filters: InvalidateQueryFilters,
): Promise<void> {
  const underWay = new Set(
    client
      .getQueryCache()
      .findAll(filters)
      .filter(({ state }) => state.fetchStatus === 'fetching' && state.data === undefined),
  )
  await client.invalidateQueries(filters)
  if (underWay.size === 0) return
  await client.invalidateQueries({ predicate: (query) => underWay.has(query) })
}
