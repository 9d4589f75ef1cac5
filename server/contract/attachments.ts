import { z } from 'zod'
import { Id } from '#domain/feeder/identifiers.ts'
import { Actor } from './actor.ts'

/** Known by their content; a name or a claimed type decides nothing. */
export const ATTACHMENT_TYPES = [
  'image/jpeg',
  'image/png',
  'image/webp',
  'application/pdf',
] as const
export const MOST_ATTACHMENT_BYTES = 25 * 1024 * 1024

export const ATTACHED_TO = ['pole', 'proposal', 'protection', 'nest', 'incident', 'job'] as const

export const AttachmentParams = z.object({ attachmentId: Id })
export const AttachmentsQuery = z.object({
  attachedTo: z.enum(ATTACHED_TO).optional(),
  attachedToId: Id.optional(),
})
export const AttachQuery = z.object({
  attachedTo: z.enum(ATTACHED_TO),
  attachedToId: Id,
  /** Made on the device, so that a file sent twice is one; given by the server when left out. */
  attachmentId: Id.optional(),
  /** As on the device; shown, and offered when the file is saved. */
  fileName: z.string().trim().min(1).max(200),
  note: z.string().trim().max(400).optional(),
  /** Time on the device, for what was taken without connection. */
  deviceAt: z.iso.datetime().optional(),
})
export const AttachmentVersionQuery = z.object({
  version: z.coerce.number<number>().int().min(1),
})

export const Attachment = z.object({
  id: Id,
  feederId: Id,
  attachedTo: z.enum(ATTACHED_TO),
  attachedToId: Id,
  fileName: z.string(),
  note: z.string(),
  mediaType: z.enum(ATTACHMENT_TYPES),
  sizeBytes: z.number().int(),
  /** SHA-256 of the content, in hexadecimal digits. */
  sha256: z.string(),
  version: z.number().int().min(1),
  changedBy: Actor,
  changedAt: z.iso.datetime(),
  deletedAt: z.iso.datetime().nullable(),
})

export type Attachment = z.infer<typeof Attachment>
export type AttachQuery = z.infer<typeof AttachQuery>
export type AttachmentsQuery = z.infer<typeof AttachmentsQuery>
