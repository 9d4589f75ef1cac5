/** A statement takes so many values at most: 32,766 on SQLite, 65,535 on PostgreSQL. */
export const ROWS_AT_ONCE = 500

export function* portionsOf<Item>(items: readonly Item[], size: number): Generator<Item[]> {
  for (let start = 0; start < items.length; start += size) yield items.slice(start, start + size)
}
