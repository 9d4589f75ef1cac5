import { z } from 'zod'
import { ProtectionBody, type ProtectionRecord } from '#contract/protections.ts'
import { ITEM_CONDITIONS } from '#domain/feeder/birds.ts'
import { keptDrafts } from '../../record/kept-drafts.ts'

/** What a person has typed of one inspection. */
export const InspectDraft = z.object({
  condition: z.enum(ITEM_CONDITIONS),
  inspectedOn: z.string(),
  note: z.string(),
})
export type InspectDraft = z.infer<typeof InspectDraft>

export const inspectDrafts = keptDrafts('crossarm.inspect-drafts', InspectDraft)

export function newInspection(item: ProtectionRecord, today: string): InspectDraft {
  return { condition: item.condition ?? 'sound', inspectedOn: today, note: item.note ?? '' }
}

/** The item as the inspection leaves it: anything but sound fails it from that day. */
export function inspectedItem(item: ProtectionRecord, draft: InspectDraft): ProtectionBody {
  const { condition, inspectedOn } = draft
  const note = draft.note.trim()
  const failed = condition === 'sound' ? {} : { state: 'failed', on: inspectedOn }
  const { note: _, ...others } = item
  return ProtectionBody.parse({
    ...others,
    condition,
    inspectedOn,
    ...failed,
    ...(note && { note }),
  })
}
