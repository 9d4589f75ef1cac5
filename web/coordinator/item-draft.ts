import { z } from 'zod'
import { ProtectionBody, type ProtectionRecord } from '#contract/protections.ts'
import { PROTECTION_KINDS, PROTECTION_STATES } from '#domain/feeder/birds.ts'
import type { Fields } from '../record/merge-fields.ts'

/** What a person has typed into the item form; not yet checked. */
export const ItemDraft = z.object({
  kind: z.enum(PROTECTION_KINDS),
  what: z.string(),
  state: z.enum(PROTECTION_STATES),
  on: z.string(),
  note: z.string(),
  /** Version of the record that the person started from; null for a new item. */
  version: z.number().nullable(),
  /** What the record held then; null for a new item. */
  base: z.record(z.string(), z.string()).nullable(),
})
export type ItemDraft = z.infer<typeof ItemDraft>

/** @param today ISO date offered as the date of the state. */
export function newDraft(today: string): ItemDraft {
  return {
    kind: 'cover',
    what: '',
    state: 'planned',
    on: today,
    note: '',
    version: null,
    base: null,
  }
}

export function draftOfItem(item: ProtectionRecord): ItemDraft {
  const { kind, what, state, on, note = '', version } = item
  return { kind, what, state, on, note, version, base: fieldsOfItem(item) }
}

type ItemFields = Pick<ProtectionRecord, 'kind' | 'what' | 'state' | 'on' | 'note'>

/** The fields that a person fills in, as text. */
export function fieldsOfItem({ kind, what, state, on, note = '' }: ItemFields): Fields {
  return { kind, what, state, on, note }
}

export function fieldsOfDraft({ kind, what, state, on, note }: ItemDraft): Fields {
  return { kind, what, state, on, note }
}

/** The draft that says what was chosen of two versions, and follows on the newer one. */
export function draftOfChosen(chosen: Fields, newer: ProtectionRecord): ItemDraft {
  const draft = { ...chosen, version: newer.version, base: fieldsOfItem(newer) }
  return ItemDraft.parse(draft)
}

export type DraftFaults = Partial<Record<'what' | 'on', string>>

/** The body to send, or what is wrong with each field and what to do. */
export function bodyOfDraft(
  draft: ItemDraft,
  pole: string,
): { body: ProtectionBody } | { faults: DraftFaults } {
  const note = draft.note.trim()
  const { kind, state, on } = draft
  const parsed = ProtectionBody.safeParse({
    pole,
    kind,
    state,
    on,
    what: draft.what.trim(),
    ...(note && { note }),
  })
  if (parsed.success) return { body: parsed.data }
  const wrong = new Set(parsed.error.issues.map(({ path }) => path[0]))
  return {
    faults: {
      ...(wrong.has('what') && {
        what: 'Say what it covers or where it sits, as “bushing cover, A phase”.',
      }),
      ...(wrong.has('on') && { on: 'Give the date of the state, as 2026-11-25.' }),
    },
  }
}
