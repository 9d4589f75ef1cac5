import { type AttachQuery, MOST_ATTACHMENT_BYTES } from '#contract/attachments.ts'
import type { Asker } from '#contract/rights.ts'
import { actorOf } from './actor-of.ts'
import type {
  Attachment,
  AttachmentsQuery,
  AttachmentType,
  FileToShow,
  StagedFile,
} from './attachment-ports.ts'
import { findFeeder } from './find-feeder.ts'
import { maySeeAttachedTo } from './may-see.ts'
import type { Ports, Store } from './ports.ts'
import { Refusal } from './refusal.ts'
import { settleWritten } from './settle-written.ts'

export interface AttachedFile extends FileToShow {
  readonly mediaType: AttachmentType
  readonly fileName: string
}

/** Photos and reports on poles, proposals, guards, nests, finds and jobs. */
export function attachmentService({
  store,
  clock,
  newId,
}: Pick<Ports, 'store' | 'clock' | 'newId'>) {
  const stamp = (asker: Asker) => ({ actor: actorOf(asker), at: clock() })
  return {
    /** Without those on what the asker may not see. */
    list: async (
      asker: Asker,
      feederId: string,
      filter: AttachmentsQuery,
    ): Promise<Attachment[]> => {
      await findFeeder(store, feederId)
      const files = await store.attachments.list(feederId, filter)
      return files.filter(({ attachedTo }) => maySeeAttachedTo(asker, attachedTo))
    },

    /**
     * Takes the file in before anything is written about it.
     *
     * @throws Refusal `not-found`, `too-large`, `wrong-media-type`, `malformed-request`
     */
    takeIn: async (
      asker: Asker,
      feederId: string,
      query: AttachQuery,
      content: ReadableStream<Uint8Array>,
    ): Promise<StagedFile> => {
      await refuseUnknownPlace(store, asker, feederId, query)
      const staging = await store.attachments.stage(content, MOST_ATTACHMENT_BYTES)
      if (staging.status === 'staged') return staging.file
      throw refusedFile(staging)
    },

    /** Sent twice under an id of the device, it is attached once. @throws Refusal `wrong-state` */
    attach: (
      asker: Asker,
      feederId: string,
      query: AttachQuery,
      file: StagedFile,
    ): Promise<Attachment> =>
      store.together(async () => {
        const { attachedTo, attachedToId, fileName, note = '', deviceAt } = query
        const before = await attachedBefore(store, feederId, query, file)
        if (before) return before
        const id = query.attachmentId ?? newId()
        return store.attachments.add(
          { id, feederId, attachedTo, attachedToId, fileName: lastPart(fileName), note },
          file,
          { ...stamp(asker), ...(deviceAt !== undefined && { deviceAt }) },
        )
      }),

    /** Leaves nothing of a file that was taken in but is not needed. */
    release: (file: StagedFile, isAttached: boolean): Promise<void> =>
      isAttached ? file.discard() : store.attachments.abandon(file),

    /** What of it is shown, also of a deleted one: it may be looked at before it is restored. */
    openFile: async (asker: Asker, attachmentId: string): Promise<AttachedFile> => {
      const attachment = await findSeen(store, asker, attachmentId)
      const { mediaType, sha256, fileName } = attachment
      const file = await store.attachments.open(sha256, mediaType)
      if (!file) throw new Error(`The content of the attachment ${attachmentId} is not there.`)
      return { ...file, mediaType, fileName: endedAs(fileName, mediaType) }
    },

    delete: async (asker: Asker, attachmentId: string, version: number): Promise<Attachment> => {
      await findSeen(store, asker, attachmentId)
      return settleWritten(await store.attachments.delete(attachmentId, version, stamp(asker)), {
        missing: missing(attachmentId),
        wrongState: 'The file is deleted already.',
      })
    },

    restore: async (asker: Asker, attachmentId: string, version: number): Promise<Attachment> => {
      await refusePurgedHolder(store, await findSeen(store, asker, attachmentId))
      return settleWritten(await store.attachments.restore(attachmentId, version, stamp(asker)), {
        missing: missing(attachmentId),
        wrongState: 'The file is not deleted, so there is nothing to restore.',
      })
    },
  }
}

function missing(attachmentId: string): string {
  return `There is no attached file "${attachmentId}".`
}

/** Deleted ones too. @throws Refusal `not-found`, also where it hangs on what the asker may not see. */
async function findSeen(store: Store, asker: Asker, attachmentId: string): Promise<Attachment> {
  const attachment = await store.attachments.find(attachmentId)
  if (attachment && maySeeAttachedTo(asker, attachment.attachedTo)) return attachment
  throw new Refusal('not-found', missing(attachmentId))
}

/** What it hung on may have been purged meanwhile; the history says so. */
async function refusePurgedHolder(
  store: Store,
  { feederId, attachedTo, attachedToId }: Attachment,
): Promise<void> {
  if (attachedTo === 'pole') return
  const entries = await store.history.of(attachedTo, attachedToId, feederId)
  if (entries.at(-1)?.what !== 'purged') return
  const detail = `The ${HOLDER_WORDS[attachedTo]} that the file was attached to was removed for good, so the file cannot be brought back to it.`
  throw new Refusal('wrong-state', detail)
}

/** The attachment that this very file is already, by the id that the device gave it. */
async function attachedBefore(
  store: Store,
  feederId: string,
  { attachmentId, attachedTo, attachedToId }: AttachQuery,
  { sha256 }: StagedFile,
): Promise<Attachment | null> {
  if (attachmentId === undefined) return null
  const known = await store.attachments.find(attachmentId)
  if (known === null) {
    await refusePurged(store, attachmentId)
    return null
  }
  const isSame =
    known.sha256 === sha256 &&
    known.feederId === feederId &&
    known.attachedTo === attachedTo &&
    known.attachedToId === attachedToId
  if (isSame) return known
  const detail = `Another file was attached under the id "${attachmentId}" before. Give this one an id of its own.`
  throw new Refusal('wrong-state', detail)
}

async function refusePurged(store: Store, attachmentId: string): Promise<void> {
  const entries = await store.history.of('attachment', attachmentId)
  if (entries.length === 0) return
  const detail = `The file "${attachmentId}" was removed for good. Attach it anew, under another id.`
  throw new Refusal('wrong-state', detail)
}

async function refuseUnknownPlace(
  store: Store,
  asker: Asker,
  feederId: string,
  { attachedTo, attachedToId }: AttachQuery,
): Promise<void> {
  const { feeder } = await findFeeder(store, feederId)
  const isThere = {
    pole: async () => feeder.poles.some(({ id }) => id === attachedToId),
    proposal: async () => {
      const proposal = await store.proposals.find(attachedToId)
      return proposal?.feederId === feederId && proposal.deletedAt === null
    },
    protection: async () =>
      (await store.protections.list(feederId)).some(({ id }) => id === attachedToId),
    nest: async () => (await store.nests.list(feederId)).some(({ id }) => id === attachedToId),
    incident: async () =>
      (await store.incidents.list(feederId)).some(({ id }) => id === attachedToId),
    job: async () => {
      const job = await store.jobs.find(attachedToId)
      return job?.feederId === feederId && job.deletedAt === null
    },
  }
  if (maySeeAttachedTo(asker, attachedTo) && (await isThere[attachedTo]())) return
  const detail = `Feeder "${feederId}" has no ${HOLDER_WORDS[attachedTo]} "${attachedToId}" to attach a file to.`
  throw new Refusal('not-found', detail)
}

const HOLDER_WORDS: Readonly<Record<AttachQuery['attachedTo'], string>> = {
  pole: 'pole',
  proposal: 'proposal',
  protection: 'guard, cover or perch',
  nest: 'nest',
  incident: 'find',
  job: 'job',
}

function refusedFile(
  staging:
    | { readonly status: 'too-large' | 'cut-short' }
    | { readonly status: 'unfit'; readonly why: string },
): Refusal {
  switch (staging.status) {
    case 'too-large': {
      const most = MOST_ATTACHMENT_BYTES / 1024 / 1024
      return new Refusal('too-large', `A file may hold ${most} MB at most.`)
    }
    case 'cut-short':
      return new Refusal('malformed-request', 'The file did not arrive whole. Send it again.')
    case 'unfit':
      return new Refusal('wrong-media-type', `The file ${staging.why}.`)
  }
}

/** Some devices give a whole path. */
function lastPart(fileName: string): string {
  return fileName.split(/[/\\]/).findLast((part) => part !== '') ?? fileName
}

const ENDINGS: Readonly<Record<AttachmentType, readonly [string, ...string[]]>> = {
  'image/jpeg': ['jpg', 'jpeg'],
  'image/png': ['png'],
  'image/webp': ['webp'],
  'application/pdf': ['pdf'],
}

/** A saved file is opened by what its name says it is, so the name says what it is. */
function endedAs(fileName: string, type: AttachmentType): string {
  const endings = ENDINGS[type]
  const ending = fileName.split('.').at(-1)?.toLowerCase() ?? ''
  return endings.includes(ending) ? fileName : `${fileName}.${endings[0]}`
}
