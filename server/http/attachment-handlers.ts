import type { Services } from '../services/services.ts'
import type { Handlers } from './handlers.ts'

type AttachmentRoutes =
  | 'listAttachments'
  | 'attach'
  | 'getAttachmentFile'
  | 'deleteAttachment'
  | 'restoreAttachment'

export function attachmentHandlers({ attachments }: Services): Pick<Handlers, AttachmentRoutes> {
  return {
    listAttachments: ({ params, query }, asker) => attachments.list(asker, params.feederId, query),
    attach: {
      prepare: async ({ params, query, file }, asker) => {
        const staged = await attachments.takeIn(asker, params.feederId, query, file)
        return {
          contentHash: staged.sha256,
          write: () => attachments.attach(asker, params.feederId, query, staged),
          release: (isWritten) => attachments.release(staged, isWritten),
        }
      },
    },
    getAttachmentFile: async ({ params }, asker) => {
      const { mediaType, fileName, content, sizeBytes } = await attachments.openFile(
        asker,
        params.attachmentId,
      )
      const file = { mediaType, content, sizeBytes }
      // A document could hold scripts, so it is only ever saved.
      return mediaType === 'application/pdf' ? { ...file, fileName } : file
    },
    deleteAttachment: ({ params, query }, asker) =>
      attachments.delete(asker, params.attachmentId, query.version),
    restoreAttachment: ({ params, query }, asker) =>
      attachments.restore(asker, params.attachmentId, query.version),
  }
}
