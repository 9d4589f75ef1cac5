import type { Sureness } from '../state/working.ts'

/** How sure a rule of the plan is, by what its source says of itself. */
export function howSureOf(source: string): Sureness {
  const words = source.toLowerCase()
  if (words.includes('common practice')) return 'common practice, no source'
  if (words.includes('from memory')) return 'from memory'
  if (words.includes('secondary source')) return 'seen second hand'
  if (words.includes('assum') || words.trim() === '') return 'assumption'
  if (COMPUTED.some((word) => words.includes(word))) return 'computed'
  return 'published'
}

const COMPUTED = ['computed', 'power flow', 'of the record', 'from the record', 'as recorded']
