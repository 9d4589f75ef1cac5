/** Calendar date where the person sits, as 2026-11-25. */
export function localToday(now = new Date()): string {
  const parts = [now.getFullYear(), now.getMonth() + 1, now.getDate()]
  return parts.map((part) => String(part).padStart(2, '0')).join('-')
}
