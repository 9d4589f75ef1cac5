import type { Attachment, AttachmentsQuery } from '#contract/attachments.ts'
import type { Purgeable, Stamp, Written } from './ports.ts'

export type { Attachment, AttachmentsQuery } from '#contract/attachments.ts'

export type AttachmentType = Attachment['mediaType']

/** A whole file of a kind that is taken, on the disk but not in its place yet. */
export interface StagedFile {
  readonly sha256: string
  readonly sizeBytes: number
  readonly mediaType: AttachmentType
  /** Puts it where its content belongs. Only in a transaction: then no purge can be about to remove it. */
  place(): Promise<void>
  /** Removes what was not put in place. */
  discard(): Promise<void>
}

/** How taking a file in went; `why` completes "The file …". */
export type Staging =
  | { readonly status: 'staged'; readonly file: StagedFile }
  | { readonly status: 'too-large' }
  | { readonly status: 'cut-short' }
  | { readonly status: 'unfit'; readonly why: string }

export interface FileToShow {
  readonly content: ReadableStream<Uint8Array>
  readonly sizeBytes: number
}

export interface AttachmentFiles {
  stage(content: ReadableStream<Uint8Array>, mostBytes: number): Promise<Staging>
  /** What people are shown; null where the original is not there. */
  open(sha256: string, type: AttachmentType): Promise<FileToShow | null>
  remove(sha256: string): Promise<void>
}

/** What is new about an attachment that is being added. */
export type NewAttachment = Pick<
  Attachment,
  'id' | 'feederId' | 'attachedTo' | 'attachedToId' | 'fileName' | 'note'
>

/** Purging removes the content too, once nothing refers to it. */
export interface AttachmentStore extends Purgeable {
  /** Takes a file in ahead of the change that it is for. */
  stage: AttachmentFiles['stage']
  /** Leaves nothing of a file whose change was not kept. */
  abandon(file: StagedFile): Promise<void>
  /** Those not deleted, newest first. */
  list(feederId: string, filter: AttachmentsQuery): Promise<Attachment[]>
  /** Deleted ones too. */
  find(attachmentId: string): Promise<Attachment | null>
  open: AttachmentFiles['open']
  add(attachment: NewAttachment, file: StagedFile, stamp: Stamp): Promise<Attachment>
  delete(attachmentId: string, version: number, stamp: Stamp): Promise<Written<Attachment>>
  restore(attachmentId: string, version: number, stamp: Stamp): Promise<Written<Attachment>>
}
