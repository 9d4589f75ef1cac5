import { z } from 'zod'
import { ProtectionBody, type ProtectionRecord } from '#contract/protections.ts'
import { PROTECTION_KINDS, PROTECTION_STATES } from '#domain/feeder/birds.ts'
import type { Fields } from '../../record/merge-fields.ts'

/** What a person has typed into the item form; not yet checked. Empty text is nothing. */
const TYPED = {
  kind: z.enum(PROTECTION_KINDS),
  what: z.string(),
  state: z.enum(PROTECTION_STATES),
  on: z.string(),
  note: z.string(),
  measure: z.string(),
  /** Ids of the covered parts, one a line. */
  partIds: z.string(),
  dimensionM: z.string(),
  materialClass: z.string(),
  installedBy: z.string(),
  costUsd: z.string(),
  inspectEveryMonths: z.string(),
  condition: z.string(),
  inspectedOn: z.string(),
}
type TypedKey = keyof typeof TYPED
const KEYS = Object.keys(TYPED) as TypedKey[]

export const ItemDraft = z.object({
  ...TYPED,
  /** Version of the record that the person started from; null for a new item. */
  version: z.number().nullable(),
  /** What the record held then; null for a new item. */
  base: z.record(z.string(), z.string()).nullable(),
})
export type ItemDraft = z.infer<typeof ItemDraft>

const EMPTY = {
  what: '',
  note: '',
  measure: '',
  partIds: '',
  dimensionM: '',
  materialClass: '',
  installedBy: '',
  costUsd: '',
  inspectEveryMonths: '',
  condition: '',
  inspectedOn: '',
} as const

/** @param today ISO date offered as the date of the state. */
export function newDraft(today: string): ItemDraft {
  return { ...EMPTY, kind: 'cover', state: 'planned', on: today, version: null, base: null }
}

export function draftOfItem(item: ProtectionRecord): ItemDraft {
  const fields = fieldsOfItem(item)
  return ItemDraft.parse({ ...fields, version: item.version, base: fields })
}

/** The fields that a person fills in, as text. */
export function fieldsOfItem(item: Partial<ProtectionRecord>): Fields {
  return Object.fromEntries(KEYS.map((key) => [key, textOf(item[key])]))
}

function textOf(value: ProtectionRecord[TypedKey]): string {
  return Array.isArray(value) ? value.join('\n') : String(value ?? '')
}

export function fieldsOfDraft(draft: ItemDraft): Fields {
  return Object.fromEntries(KEYS.map((key) => [key, draft[key]]))
}

/** The draft that says what was chosen of two versions, and follows on the newer one. */
export function draftOfChosen(chosen: Fields, newer: ProtectionRecord): ItemDraft {
  const draft = { ...chosen, version: newer.version, base: fieldsOfItem(newer) }
  return ItemDraft.parse(draft)
}

export function partIdsOf({ partIds }: Pick<ItemDraft, 'partIds'>): string[] {
  return partIds.split('\n').filter((id) => id !== '')
}

export type DraftFaults = Partial<Record<TypedKey, string>>

const FAULTS: DraftFaults = {
  what: 'Say what it covers or where it sits, as “bushing cover, A phase”.',
  on: 'Give the date of the state, as 2026-11-25.',
  dimensionM: 'Give metres above 0 and up to 15.',
  costUsd: 'Give US dollars, 0 or more.',
  inspectEveryMonths: 'Give whole months, 1 to 600.',
  inspectedOn: 'Give the date of the inspection, as 2026-11-25.',
}

/** The body to send, or what is wrong with each field and what to do. */
export function bodyOfDraft(
  draft: ItemDraft,
  pole: string,
): { body: ProtectionBody } | { faults: DraftFaults } {
  const parsed = ProtectionBody.safeParse({ pole, what: '', ...filledFields(draft) })
  if (parsed.success) return { body: parsed.data }
  const wrong = new Set(parsed.error.issues.map(({ path }) => String(path[0])))
  const faults = KEYS.filter((key) => wrong.has(key)).map(
    (key) => [key, FAULTS[key] ?? 'This cannot be saved as it stands.'] as const,
  )
  return { faults: Object.fromEntries(faults) }
}

const NUMBERS: readonly TypedKey[] = ['dimensionM', 'costUsd', 'inspectEveryMonths']

function filledFields(draft: ItemDraft): Record<string, unknown> {
  const filled = KEYS.filter((key) => draft[key].trim() !== '')
  return Object.fromEntries(filled.map((key) => [key, typedValue(key, draft)]))
}

function typedValue(key: TypedKey, draft: ItemDraft): unknown {
  if (key === 'partIds') return partIdsOf(draft)
  const text = draft[key].trim()
  return NUMBERS.includes(key) ? Number(text) : text
}
