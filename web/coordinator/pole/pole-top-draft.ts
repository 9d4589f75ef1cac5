import { z } from 'zod'
import { ChoosePoleTopBody, type PoleTopRecord } from '#contract/pole-tops.ts'
import { DIMENSIONS, type Dimension } from '#domain/avian/pole-top/framing.ts'
import { AddedPart } from '#domain/avian/pole-top/pole-top-choice.ts'
import { M_PER_IN } from '#domain/units/length.ts'
import { keptDrafts } from '../../record/kept-drafts.ts'
import type { Fields } from '../../record/merge-fields.ts'
import type { Units } from '../../state/address.ts'

/** What was chosen of one pole, as text; empty where it stays as implied. Dimensions in metres. */
const CHOSEN = [
  'framing',
  'armMaterial',
  'groundWire',
  'regulatorConnection',
  'regulatorMounting',
  'note',
] as const
export type ChosenKey = (typeof CHOSEN)[number]

export const PoleTopDraft = z.object({
  chosen: z.record(z.string(), z.string()),
  /** As typed, in the unit below. */
  measured: z.record(z.string(), z.string()),
  /** Unit of the dimensions while this draft lives, whatever is switched meanwhile. */
  units: z.enum(['us', 'metric']),
  withoutParts: z.array(z.string()),
  addedParts: z.array(AddedPart),
  /** Version that the form began from, 0 where nothing was chosen yet. */
  version: z.number(),
  base: z.record(z.string(), z.string()),
})
export type PoleTopDraft = z.infer<typeof PoleTopDraft>

export const poleTopDrafts = keptDrafts('crossarm.pole-top-drafts', PoleTopDraft)

const M_PER_UNIT: Readonly<Record<Units, number>> = { us: M_PER_IN, metric: 0.01 }

export function draftOfPoleTop(record: PoleTopRecord | null, units: Units): PoleTopDraft {
  return {
    chosen: Object.fromEntries(CHOSEN.map((key) => [key, record?.[key] ?? ''])),
    measured: Object.fromEntries(
      DIMENSIONS.map((key) => [key, typedLength(record?.measured[key], units)]),
    ),
    units,
    withoutParts: record?.withoutParts ?? [],
    addedParts: record?.addedParts ?? [],
    version: record?.version ?? 0,
    base: fieldsOfPoleTop(record),
  }
}

/** A length as a person would type it: to a tenth of an inch, or a millimetre. */
export function typedLength(lengthM: number | undefined, units: Units): string {
  return lengthM === undefined ? '' : String(Math.round((lengthM / M_PER_UNIT[units]) * 10) / 10)
}

/** Null where it is no figure; undefined where nothing is typed. */
export function lengthOfTyped(text: string, units: Units): number | null | undefined {
  if (text.trim() === '') return undefined
  const value = Number(text.trim().replace(',', '.'))
  return Number.isFinite(value) ? value * M_PER_UNIT[units] : null
}

/** What a record holds, as fields that can be told and compared; lengths in metres. */
export function fieldsOfPoleTop(
  record: Pick<PoleTopRecord, ChosenKey | 'measured' | 'withoutParts' | 'addedParts'> | null,
): Fields {
  return {
    ...Object.fromEntries(CHOSEN.map((key) => [key, record?.[key] ?? ''])),
    ...Object.fromEntries(DIMENSIONS.map((key) => [key, record?.measured[key]?.toFixed(4) ?? ''])),
    withoutParts: (record?.withoutParts ?? []).join('\n'),
    addedParts: record && record.addedParts.length > 0 ? JSON.stringify(record.addedParts) : '',
  }
}

export function fieldsOfDraft(draft: PoleTopDraft): Fields {
  const { units, chosen, measured, withoutParts, addedParts } = draft
  const lengths = DIMENSIONS.map((key) => {
    const lengthM = lengthOfTyped(measured[key] ?? '', units)
    return [key, typeof lengthM === 'number' ? lengthM.toFixed(4) : ''] as const
  })
  return {
    ...Object.fromEntries(CHOSEN.map((key) => [key, chosen[key] ?? ''])),
    ...Object.fromEntries(lengths),
    withoutParts: withoutParts.join('\n'),
    addedParts: addedParts.length > 0 ? JSON.stringify(addedParts) : '',
  }
}

/** The draft that says what was chosen of two versions, and follows on the newer one. */
export function draftOfChosen(chosen: Fields, newer: PoleTopRecord, units: Units): PoleTopDraft {
  const added: unknown = JSON.parse(chosen.addedParts || '[]')
  return PoleTopDraft.parse({
    chosen: Object.fromEntries(CHOSEN.map((key) => [key, chosen[key] ?? ''])),
    measured: Object.fromEntries(
      DIMENSIONS.map((key) => [
        key,
        typedLength(chosen[key] ? Number(chosen[key]) : undefined, units),
      ]),
    ),
    units,
    withoutParts: (chosen.withoutParts ?? '').split('\n').filter(Boolean),
    addedParts: added,
    version: newer.version,
    base: fieldsOfPoleTop(newer),
  })
}

export type PoleTopFaults = Partial<Record<Dimension | 'form', string>>

/** The body to send, or what is wrong with each field and what to do. */
export function bodyOfPoleTop(
  draft: PoleTopDraft,
): { body: ChoosePoleTopBody } | { faults: PoleTopFaults } {
  const lengths = DIMENSIONS.map(
    (key) => [key, lengthOfTyped(draft.measured[key] ?? '', draft.units)] as const,
  )
  const parsed = ChoosePoleTopBody.safeParse({
    ...Object.fromEntries(
      CHOSEN.flatMap((key) => (draft.chosen[key] ? [[key, draft.chosen[key]]] : [])),
    ),
    measured: Object.fromEntries(lengths.filter(([, lengthM]) => lengthM !== undefined)),
    withoutParts: draft.withoutParts,
    addedParts: draft.addedParts,
    version: draft.version,
  })
  if (parsed.success) return { body: parsed.data }
  const wrong = new Set(parsed.error.issues.map(({ path }) => String(path[1] ?? '')))
  const most = draft.units === 'us' ? '590 in' : '1500 cm'
  const faults = DIMENSIONS.filter((key) => wrong.has(key)).map(
    (key) => [key, `Give a figure from 0 to ${most}, or leave it empty.`] as const,
  )
  return {
    faults: faults.length > 0 ? Object.fromEntries(faults) : { form: parsed.error.message },
  }
}
