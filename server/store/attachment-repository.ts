import type {
  Attachment,
  AttachmentFiles,
  AttachmentStore,
  AttachmentsQuery,
} from '../services/attachment-ports.ts'
import type { Actor } from '../services/ports.ts'
import type { Database } from './database.ts'
import type { AttachmentRow } from './tables.ts'
import { type RecordKind, versionedRecords } from './versioned-record.ts'

export const ATTACHMENT_KIND: RecordKind<AttachmentRow, Attachment> = {
  subject: 'attachment',
  table: 'attachments',
  recordOf: recordOfRow,
  touched: ({ actor, at }) => ({ actor_id: actor.id, actor_role: actor.role, changed_at: at }),
}

/** @param reportFault told where a file that nothing refers to any more cannot be removed */
export function attachmentRepository(
  db: Database,
  files: AttachmentFiles,
  reportFault: (fault: unknown) => void,
): AttachmentStore {
  const records = versionedRecords(db, ATTACHMENT_KIND)
  const removeUnused = (sha256: string) => removeWhereUnused(db, files, sha256).catch(reportFault)
  return {
    stage: files.stage,
    open: files.open,
    abandon: async (file) => {
      await file.discard()
      await removeWhereUnused(db, files, file.sha256)
    },
    list: (feederId, filter) => listStanding(db, feederId, filter),
    find: (id) => records.find({ id }),
    add: async ({ id, ...attachment }, file, stamp) => {
      const { sha256, sizeBytes, mediaType } = file
      const row: AttachmentRow = {
        id,
        feeder_id: attachment.feederId,
        version: 1,
        attached_to: attachment.attachedTo,
        attached_to_id: attachment.attachedToId,
        file_name: attachment.fileName,
        note: attachment.note,
        media_type: mediaType,
        size_bytes: sizeBytes,
        sha256,
        actor_id: stamp.actor.id,
        actor_role: stamp.actor.role,
        changed_at: stamp.at,
        deleted_at: null,
      }
      return db.transaction(async () => {
        await file.place()
        return records.add(row, stamp)
      })
    },
    delete: (id, version, stamp) => records.delete({ id }, version, stamp),
    restore: (id, version, stamp) => records.restore({ id }, version, stamp),
    listDeleted: (feederId) => records.listDeleted(feederId, ({ fileName }) => fileName),
    purge: async (feederId, id, version, reason, stamp) => {
      const key = { id, feeder_id: feederId }
      const written = await records.purge(key, version, reason, stamp)
      if (written.status === 'written') {
        const { sha256 } = written.record
        db.afterCommit(() => void removeUnused(sha256))
      }
      return written
    },
  }
}

/** In the turn of writing, so that nobody can be about to refer to the file again. */
function removeWhereUnused(db: Database, files: AttachmentFiles, sha256: string): Promise<void> {
  return db.transaction(async (transaction) => {
    const row = await transaction
      .selectFrom('attachments')
      .select('id')
      .where('sha256', '=', sha256)
      .executeTakeFirst()
    if (!row) await files.remove(sha256)
  })
}

async function listStanding(
  db: Database,
  feederId: string,
  { attachedTo, attachedToId }: AttachmentsQuery,
): Promise<Attachment[]> {
  const rows = await db.query
    .selectFrom('attachments')
    .selectAll()
    .where('feeder_id', '=', feederId)
    .where('deleted_at', 'is', null)
    .$if(attachedTo !== undefined, (query) => query.where('attached_to', '=', attachedTo ?? ''))
    .$if(attachedToId !== undefined, (query) =>
      query.where('attached_to_id', '=', attachedToId ?? ''),
    )
    .orderBy('changed_at', 'desc')
    .orderBy('id')
    .execute()
  return rows.map(recordOfRow)
}

function recordOfRow(row: AttachmentRow): Attachment {
  return {
    id: row.id,
    feederId: row.feeder_id,
    attachedTo: row.attached_to as Attachment['attachedTo'],
    attachedToId: row.attached_to_id,
    fileName: row.file_name,
    note: row.note,
    mediaType: row.media_type as Attachment['mediaType'],
    sizeBytes: row.size_bytes,
    sha256: row.sha256,
    version: row.version,
    changedBy: { id: row.actor_id, role: row.actor_role as Actor['role'] },
    changedAt: row.changed_at,
    deletedAt: row.deleted_at,
  }
}
