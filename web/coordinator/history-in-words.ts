import type { ProtectionChange, ProtectionRecord } from '#contract/protections.ts'

const FIELDS = [
  ['kind', 'kind'],
  ['what', 'what'],
  ['state', 'state'],
  ['on', 'date of the state'],
  ['note', 'note'],
] as const

/** What one change did, as sentences: "State from planned to on." Never empty. */
export function changeInWords({ before, after }: ProtectionChange): string[] {
  if (!before) return [`Added: ${itemInWords(after)}.`]
  if (!before.deletedAt && after.deletedAt) return ['Taken off the record.']
  if (before.deletedAt && !after.deletedAt) return ['Brought back to the record.']
  const changed = fieldChanges(before, after)
  return changed.length > 0 ? changed : ['Saved without a change.']
}

/** "cover (bushing cover, A phase), planned since 2026-03-01". */
export function itemInWords(
  item: Pick<ProtectionRecord, 'kind' | 'what' | 'state' | 'on'>,
): string {
  return `${item.kind} (${item.what}), ${item.state} since ${item.on}`
}

type Fields = Pick<ProtectionRecord, 'kind' | 'what' | 'state' | 'on' | 'note'>

/** Differences between two versions of an item, one sentence each. */
export function fieldChanges(before: Fields, after: Fields): string[] {
  return FIELDS.flatMap(([field, name]) => {
    const from = before[field] ?? ''
    const to = after[field] ?? ''
    return from === to ? [] : [`${capitalised(name)} ${differenceInWords(from, to)}.`]
  })
}

function differenceInWords(from: string, to: string): string {
  if (from === '') return `set to "${to}"`
  if (to === '') return `cleared, was "${from}"`
  return `from "${from}" to "${to}"`
}

const capitalised = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)
